import { grade } from "../../../src/grading/grade.ts";
import type { Grading } from "../../../src/grading/grading.ts";
import { netMassG } from "../../../src/grading/netMass.ts";
import { type ProcedureRules, resolveRules } from "../../../src/procedure/rules/resolve.ts";
import { massesOnly, type ProcedureFacts } from "../../../src/procedure/verdict/facts.ts";
import type { ProcedureChoice } from "../../../src/record/procedure.ts";
import type { Method } from "../../../src/record/product.ts";

/** Invented weighings of filter sand TH-0510: aperture in um (0: the pan), empty g, full g. Loss 0.29 g of 300.20 g. */
export const WEIGHINGS: Rows = [
  [1400, 412.31, 418.02],
  [1000, 398.74, 455.2],
  [710, 381.2, 491.73],
  [500, 366.95, 447.36],
  [355, 359.4, 396.5],
  [0, 354.1, 363.8],
];

type Rows = readonly (readonly [number, number, number])[];

export interface Masses {
  readonly chargeG?: number | null;
  readonly washedG?: number | null;
  readonly weighings?: Rows;
}

export function gradingOf({ chargeG = 300.2, washedG = null, weighings = WEIGHINGS }: Masses = {}): Grading {
  const fractions = weighings.map(([apertureUm, emptyG, fullG]) => ({
    apertureUm,
    emptyG,
    fullG,
    netG: netMassG(fullG, emptyG),
  }));
  const outcome = grade(fractions, { basis: "recovered", chargeG, washedG });
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

/** The facts of a test of which these masses are known and whatever else is given. */
export const factsOf = (masses: Masses = {}, more: Partial<ProcedureFacts> = {}): ProcedureFacts => ({
  ...massesOnly(gradingOf(masses), masses.washedG ?? null),
  ...more,
});

/** One sieve's full weighing put otherwise. */
export const withFull = (apertureUm: number, fullG: number): Rows =>
  WEIGHINGS.map((row) => (row[0] === apertureUm ? [row[0], row[1], fullG] : row));

export const rulesOf = (method: Method, choice?: Partial<ProcedureChoice>): ProcedureRules =>
  resolveRules(method, choice === undefined ? undefined : { ruleSet: "own", ...choice });
