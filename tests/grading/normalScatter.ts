import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { normalQuantile } from "../../src/grading/normal.ts";

/**
 * Independent standard normal deviates, the same for the same seed: so many runs of so many. For tests of scatter;
 * fast-check's numbers are meant to be awkward and are neither even nor independent.
 */
export function normalRuns(runs: number, each: number, seed: number): readonly (readonly number[])[] {
  const random = xoroshiro128plus(seed);
  const deviate = () => normalQuantile(Math.max(uniformFloat64(random), Number.EPSILON));
  return Array.from({ length: runs }, () => Array.from({ length: each }, deviate));
}
