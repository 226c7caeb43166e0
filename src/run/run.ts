import type { CareKnown } from "../care/known.ts";
import type { RunOtherwise } from "../entry/programRun.ts";
import type { ReadingMarks } from "../entry/reading.ts";
import type { Draft, Stage } from "../record/draft.ts";
import type { Product } from "../record/product.ts";
import type { Program } from "../record/program.ts";
import type { Scanned } from "../record/scanner.ts";
import type { Balance } from "../record/station.ts";
import type { Entered, TestRecord } from "../record/test.ts";
import type { EmptiedTest } from "./emptied.ts";
import { setsOf } from "./sieves.ts";
import type { Usual } from "./usual.ts";

/** What the next test starts from: the words of the last one, so that Enter accepts them. */
export interface LastTest {
  readonly lot: string;
  readonly line: string;
  readonly samplingPoint: string;
}

/** What the run can choose from and compare with; read once when the run is taken up. */
export interface Setting {
  /** Lot, line and sampling point of the latest test of each product, by its code. */
  readonly last: ReadonlyMap<string, LastTest>;
  readonly products: readonly Product[];
  readonly programs: readonly Program[];
  readonly lines: readonly string[];
  readonly samplingPoints: readonly string[];
  readonly usual: Usual;
  /** Recorded tests of late on the same stack, newest first, where the method takes empty masses over. */
  readonly emptied?: readonly EmptiedTest[];
  readonly balance: Balance;
  /** What the balance writes around a mass, where the station says so. */
  readonly marks?: ReadingMarks;
  /** What is known of sieves and balance; absent until it has been read. */
  readonly care?: CareKnown;
  /** The balance's last check, and when shift and day began, for a test set out now. */
  readonly balanceKnown?: TestRecord["balanceKnown"];
}

/** A mass that can't be right, and why; a second Enter accepts it all the same. */
export interface Doubt {
  readonly grams: number;
  readonly text: string;
}

/** A test in progress: the draft as it goes to disk, and where the operator's hands are. */
export interface Run {
  readonly draft: Draft;
  /** Set out: which field. Weighing: which row, coarsest sieve first, the pan last. */
  readonly at: number;
  readonly typed: string;
  readonly doubt: Doubt | null;
  /** Why the last thing asked for was not done, in the operator's words. */
  readonly message: string | null;
  /** What was taken in with nothing to say against it; gone at the next event. */
  readonly note?: string;
  readonly setting: Setting;
}

/** What happened, in the operator's words. Moments come from outside: the run has no clock. */
export type RunEvent =
  | { readonly type: "typed"; readonly text: string }
  | { readonly type: "erased" }
  /** A scanner, a typing balance or a paste: one whole entry for the field in hand. */
  | { readonly type: "scanned"; readonly text: string; readonly ended: boolean; readonly at: string }
  /** A scan that says by its prefix what it is. */
  | { readonly type: "scannedAs"; readonly of: Scanned; readonly text: string; readonly at: string }
  | { readonly type: "accepted"; readonly at: string }
  | { readonly type: "rowUp" }
  | { readonly type: "rowDown" }
  | { readonly type: "undone"; readonly at: string }
  | { readonly type: "stageChosen"; readonly stage: Stage }
  | { readonly type: "shakingStarted"; readonly at: string }
  | { readonly type: "shakingEnded"; readonly at: string }
  | { readonly type: "shakingSkipped"; readonly reason: string; readonly at: string }
  | { readonly type: "ranOtherwise"; readonly ran: RunOtherwise; readonly at: string }
  /** The sieves are emptied for another portion of the charge. */
  | { readonly type: "portionAdded"; readonly at: string }
  /** The whole stack goes back on the shaker for one more minute, to prove that sieving was complete. */
  | { readonly type: "checkMinuteStarted"; readonly at: string }
  | { readonly type: "remarked"; readonly text: string; readonly at: string }
  | { readonly type: "disposed"; readonly disposition: NonNullable<Draft["disposition"]>; readonly at: string }
  | { readonly type: "usualLearnt"; readonly usual: Usual; readonly emptied?: readonly EmptiedTest[] }
  /** The empty masses of the latest test on these sieves are to stand for this one. */
  | { readonly type: "emptiesTakenOver"; readonly shiftBegan: string; readonly at: string }
  | { readonly type: "careLearnt"; readonly care: CareKnown };

export type SetOutField = Extract<
  Entered,
  "product" | "lot" | "line" | "samplingPoint" | "set" | "moistG" | "dryG" | "chargeG" | "washedG"
>;

/** What is asked on the set-out page: moisture and washing only where the product wants them, a set where there is one. */
export function setOutFields({ method }: Product, hasSets = false): readonly SetOutField[] {
  const moisture = method?.procedure?.moisture ? (["moistG", "dryG"] as const) : [];
  const washed = method?.washed ? (["washedG"] as const) : [];
  return [
    "product",
    "lot",
    "line",
    "samplingPoint",
    ...(hasSets ? (["set"] as const) : []),
    ...moisture,
    "chargeG",
    ...washed,
  ];
}

export const fieldsOf = (run: Run): readonly SetOutField[] => setOutFields(run.draft.product, setsOf(run).length > 0);

export const fieldInHand = (run: Run): SetOutField => fieldsOf(run)[run.at] ?? "product";

/** Whether the field in hand takes a mass. */
export const massInHand = (run: Run): boolean => fieldInHand(run).endsWith("G");

/** The same run with hands free: nothing typed, nothing doubted, no message. */
export const handsFree = (run: Run): Run => ({ ...run, typed: "", doubt: null, message: null });

export const refuse = (run: Run, message: string): Run => ({ ...run, doubt: null, message });

/** Weighings come coarsest first with the pan last, in every draft. */
export const columnOf = (stage: Stage): "emptyG" | "fullG" => (stage === "weigh full" ? "fullG" : "emptyG");
