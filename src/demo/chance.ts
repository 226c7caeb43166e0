import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { normalQuantile } from "../grading/normal.ts";

/** Seeded chance, so that the invented world is the same each time it is made. */
export interface Chance {
  /** Evenly between 0 and 1, neither of them included. */
  readonly even: () => number;
  /** Normal with this mean and standard deviation. */
  readonly normal: (mean: number, deviation: number) => number;
  readonly pick: <T>(items: readonly [T, ...T[]]) => T;
}

const EDGE = 1e-12;

export function chanceFrom(seed: number): Chance {
  const generator = xoroshiro128plus(seed);
  const even = () => Math.min(1 - EDGE, Math.max(EDGE, uniformFloat64(generator)));
  return {
    even,
    normal: (mean, deviation) => mean + deviation * normalQuantile(even()),
    pick: (items) => items[Math.floor(even() * items.length)] ?? items[0],
  };
}
