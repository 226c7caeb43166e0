import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

export interface Chance {
  readonly even: () => number;
  readonly normal: (mean: number, deviation: number) => number;
}

/** Seeded chance; normal figures by Box and Muller, so that nothing of the program's own is used to test it. */
export function chanceFrom(seed: number): Chance {
  const generator = xoroshiro128plus(seed);
  const even = () => uniformFloat64(generator);
  const normal = (mean: number, deviation: number) =>
    mean + deviation * Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even());
  return { even, normal };
}
