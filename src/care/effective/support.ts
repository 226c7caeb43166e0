import { middleMean } from "../robust.ts";
import type { CurvePoint } from "./scales.ts";

/** Nearer to 0 or 100 % than this, on the robust mean, a sieve's place on the curve is mostly noise. */
const LEAST_PCT = 1;
const MOST_PCT = 99;
/** A step less than half as steep as a step on either side is a shelf. */
const SHELF = 0.5;
/** Steps of the curve on either side of a sieve that a curve without it leans on. */
const REACH = 2;

/** The robust mean curve over many tests, finest sieve first. */
export function meanCurve(tests: readonly (readonly CurvePoint[])[]): CurvePoint[] {
  const sizes = (tests.at(-1) ?? []).map((p) => p.apertureUm);
  return sizes.map((apertureUm) => {
    const passed = tests.flatMap((points) => points.filter((p) => p.apertureUm === apertureUm));
    return { apertureUm, passingPct: middleMean(passed.map((p) => p.passingPct)) };
  });
}

/** The sieves of a mean curve that tell enough to support a curve: from 1 to 99 % passing. */
export const supportsOf = (curve: readonly CurvePoint[]): readonly CurvePoint[] =>
  curve.filter(({ passingPct }) => passingPct >= LEAST_PCT && passingPct <= MOST_PCT);

/** Whether each step of the curve, from its finer end, is a shelf between steeper parts. */
function shelvesOf(curve: readonly CurvePoint[]): boolean[] {
  const steepness = curve.slice(1).map((to, k) => {
    const from = curve[k] ?? to;
    return (to.passingPct - from.passingPct) / Math.log(to.apertureUm / from.apertureUm);
  });
  return steepness.map((here, k) => {
    const before = Math.max(0, ...steepness.slice(0, k));
    const after = Math.max(0, ...steepness.slice(k + 1));
    return here < SHELF * Math.min(before, after);
  });
}

/**
 * Why nothing can be said of a sieve from the curve of its neighbours, judged on the mean curve over many tests: it
 * passes too little or too much, it stands at an end, or the curve has a shelf within two steps of it, as a blend of
 * two materials has (or a stack with a mixed-up sieve). Null where something can be said.
 *
 * @param curve the mean curve, finest first
 * @source own limits, no source
 */
export function blindSpot(curve: readonly CurvePoint[], apertureUm: number): string | null {
  const supports = supportsOf(curve);
  const at = supports.findIndex((p) => p.apertureUm === apertureUm);
  if (at < 0) return `it passes under ${LEAST_PCT} or over ${MOST_PCT} %, where the curve has no slope`;
  if (at === 0 || at === supports.length - 1) return "it stands at an end of the curve: no neighbour on one side";
  const around = shelvesOf(supports).slice(Math.max(0, at - REACH), at + REACH);
  return around.includes(true)
    ? "the curve has a shelf beside it: a blend of two materials, or a sieve mixed up; neighbours cannot tell"
    : null;
}
