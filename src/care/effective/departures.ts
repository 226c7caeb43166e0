import { type CurvePoint, DRAWINGS, sizeThrough } from "./scales.ts";

/** What one test says of one sieve: ln(effective size / known size) by each drawing of the curve. */
export type Departure = readonly number[];

const between = ({ passingPct }: CurvePoint): boolean => passingPct > 0 && passingPct < 100;

/**
 * Leave-one-out departure of one sieve in one test: a curve is drawn through the supporting sieves' points over the
 * logarithm of their sizes; where it reaches what this sieve passed, there lies this sieve's effective size.
 *
 *     departure = ln(size at which the others' curve passes P_i) - ln a_i
 *
 * Dimensionless, one figure for each drawing.
 *
 * @param points of one test, finest first
 * @param supports sizes of the sieves that the curve may rest on; the sieve itself never supports its own
 * @returns null where the test says nothing of it: the others do not enclose what it passed
 * @source leave-one-out on a monotone curve; own choice of scales, no source
 */
export function departureOf(
  points: readonly CurvePoint[],
  apertureUm: number,
  supports: ReadonlySet<number>,
): Departure | null {
  const own = points.find((p) => p.apertureUm === apertureUm);
  if (own === undefined || !between(own)) return null;
  const others = points.filter((p) => p !== own && supports.has(p.apertureUm) && between(p));
  const sizes = DRAWINGS.map((drawing) => sizeThrough(others, own.passingPct, drawing));
  return sizes.every((size) => size !== undefined) ? sizes.map((size) => Math.log(size / apertureUm)) : null;
}

/** The departures of one sieve in each of many tests that say something of it. */
export function departuresOf(
  tests: readonly (readonly CurvePoint[])[],
  apertureUm: number,
  supports: ReadonlySet<number>,
): Departure[] {
  return tests.flatMap((points) => {
    const one = departureOf(points, apertureUm, supports);
    return one === null ? [] : [one];
  });
}
