import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

export type Random = () => number;

export function seeded(seed: number): Random {
  const generator = xoroshiro128plus(seed);
  return () => uniformFloat64(generator);
}

/** Box and Muller's way, which is not the one of the code under test. */
export const normalFrom = (random: Random): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** A count of so many expected: multiplied up below 30, a rounded normal above. */
export function poissonFrom(expected: number, random: Random): number {
  if (expected > 30) return Math.max(0, Math.round(expected + Math.sqrt(expected) * normalFrom(random)));
  const floor = Math.exp(-expected);
  let count = 0;
  for (let product = random(); product > floor; product *= random()) count += 1;
  return count;
}
