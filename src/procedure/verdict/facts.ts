import type { Grading } from "../../grading/grading.ts";
import type { EndPointReading } from "../../record/checks.ts";
import type { Program, ProgramRun } from "../../record/program.ts";
import type { BalanceState } from "../balance/balanceState.ts";

/** What the care of sieves says of one sieve of the stack. */
export interface SieveCondition {
  readonly apertureUm: number;
  readonly serial?: string | undefined;
  readonly state: "fit" | "due" | "overdue" | "out of service";
  /** Why, e.g. "inspection was due on 3 Nov". */
  readonly text: string;
}

/** All that is known of how one test was run. Null or empty: not weighed, not noted, not looked at. */
export interface ProcedureFacts {
  readonly grading: Grading;
  /** Dry mass after washing, in g. */
  readonly washedG: number | null;
  /** The pan was not weighed but is what the charge leaves over, so no loss can be told. */
  readonly panAssumed: boolean;
  readonly moisturePct: number | null;
  readonly readabilityG: number | null;
  readonly balance: BalanceState | null;
  readonly endPoint: readonly EndPointReading[];
  readonly program: Program | null;
  readonly run: ProgramRun | null;
  /** The countdown of the shaker was not run to its end. */
  readonly cutShort: boolean;
  readonly sieves: readonly SieveCondition[];
  /** The most that each sieve held at once in g, by aperture in um, where the charge was sieved in portions. */
  readonly mostHeldG: ReadonlyMap<number, number>;
  /** What each empty sieve usually weighs in g, by aperture in um (0: the pan). */
  readonly usualEmptyG: ReadonlyMap<number, number>;
}

/** The facts of a test of which only the masses are known. */
export const massesOnly = (grading: Grading, washedG: number | null = null): ProcedureFacts => ({
  grading,
  washedG,
  panAssumed: false,
  moisturePct: null,
  readabilityG: null,
  balance: null,
  endPoint: [],
  program: null,
  run: null,
  cutShort: false,
  sieves: [],
  mostHeldG: new Map(),
  usualEmptyG: new Map(),
});
