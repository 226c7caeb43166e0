import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import type { Draws } from "../assess/howSure.ts";

/** A seeded source of chance for the draws of a Monte Carlo propagation. */
export function drawsFrom(seed: number): Draws {
  const generator = xoroshiro128plus(seed);
  return { seed, random: () => uniformFloat64(generator) };
}
