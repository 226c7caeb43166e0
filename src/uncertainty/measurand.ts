import type { Grading } from "../grading/grading.ts";
import { passingAtNominal, type Share, shareAtNominal } from "../grading/nominalShare.ts";
import { percentileUm } from "../grading/percentile.ts";
import { CHARACTERISTIC_VALUES } from "../grading/values/table.ts";
import { type Determination, determined, undetermined } from "../record/determination.ts";
import type { ValueId } from "../record/valueIds.ts";
import type { Graded } from "./graded.ts";

/** A number of which it is asked how sure it is; shaped as what a limit is put on. */
export type Measurand =
  | { readonly kind: Share; readonly apertureUm: number }
  | { readonly kind: "percentileUm"; readonly passingPct: number }
  | { readonly kind: "value"; readonly id: ValueId };

/** Its name in results and records: `passingPct@500`, `percentileUm@50`, `finenessModulus`. */
export function measurandName(on: Measurand): string {
  if (on.kind === "value") return on.id;
  return on.kind === "percentileUm" ? `percentileUm@${on.passingPct}` : `${on.kind}@${on.apertureUm}`;
}

const valueById = new Map(CHARACTERISTIC_VALUES.map((row) => [row.id, row]));

function shareAt(kind: Share, apertureUm: number, grading: Grading, graded: Graded): Determination {
  const own = shareAtNominal(kind, apertureUm, grading, graded.choices.interpolation);
  if (own !== null) return own;
  const missing = `the stack has no ${apertureUm} um sieve`;
  if (kind === "retainedPct") return undetermined(`${missing}, so what it retains is unknown`);
  if (!graded.interpolateMissing) return undetermined(`${missing} and it may not be read from the curve`);
  const passing = passingAtNominal(grading, apertureUm, graded.choices.interpolation);
  if (!passing.determinable || kind === "passingPct") return passing;
  return determined(100 - passing.value, "%");
}

/** The number itself, drawn from a grading of this test by the grading's own functions, or why there is none. */
export function measured(on: Measurand, grading: Grading, graded: Graded): Determination {
  if (on.kind === "percentileUm") return percentileUm(grading, on.passingPct, graded.choices.interpolation);
  if (on.kind !== "value") return shareAt(on.kind, on.apertureUm, grading, graded);
  return valueById.get(on.id)?.determine(grading, graded.choices) ?? undetermined(`no value is called ${on.id}`);
}

/** Between which bounds a quantity of this unit can lie at all. */
export function boundsOf(unit: string): Bounds {
  if (unit === "%") return { low: 0, high: 100 };
  return { low: unit === "phi" || unit === "1" ? null : 0, high: null };
}

/** The least and the most that a quantity can be; null where that side is open. */
export interface Bounds {
  readonly low: number | null;
  readonly high: number | null;
}
