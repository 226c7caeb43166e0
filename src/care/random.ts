import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** A seeded source of chance that the caller brings: numbers spread evenly from 0 up to, not including, 1. */
export type Random = () => number;

/** A whole number from 0 to `below` - 1. */
export const wholeBelow = (below: number, random: Random): number => Math.min(below - 1, Math.floor(random() * below));

/** Chance that is the same for the same seed. */
export function seededRandom(seed: number): Random {
  const generator = xoroshiro128plus(seed);
  return () => uniformFloat64(generator);
}
