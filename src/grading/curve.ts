import type { GradedFraction } from "./grading.ts";
import { remembered } from "./remembered.ts";
import { standsAtUm } from "./standsAt.ts";

/** What reading a curve needs of a grading. */
export interface Rows {
  readonly rows: readonly GradedFraction[];
}

/** The sieves of a grading as points of the passing curve, finest first, where they stand; the pan is no point. */
export interface Curve {
  readonly apertureUm: readonly number[];
  readonly lnAperture: readonly number[];
  readonly passingPct: readonly number[];
}

const drawn = remembered((rows: Rows["rows"]): Curve => {
  const sieves = rows.filter((row) => row.apertureUm > 0).toReversed();
  const apertureUm = sieves.map(standsAtUm);
  return { apertureUm, lnAperture: apertureUm.map(Math.log), passingPct: sieves.map((row) => row.passingPct) };
});

/** The passing curve of a grading that has one (`sizeFault`). */
export const curveOf = ({ rows }: Rows): Curve => drawn(rows);

/** One step of the curve between two neighbouring sieves: `from` the finer one, `to` the coarser one. */
export interface Step {
  readonly fromUm: number;
  readonly toUm: number;
  readonly fromPct: number;
  readonly toPct: number;
}

/** The step that begins at point `k` of the curve. */
export function stepAt(curve: Curve, k: number): Step {
  const [fromUm = 0, toUm = fromUm] = [curve.apertureUm[k], curve.apertureUm[k + 1]];
  const [fromPct = 0, toPct = fromPct] = [curve.passingPct[k], curve.passingPct[k + 1]];
  return { fromUm, toUm, fromPct, toPct };
}
