import type { ModelId } from "../../../src/grading/models/model.ts";

// A second route to every least-squares fit: the models written out afresh in their own parameters, and the smallest
// sum of squares found by looking at a grid of parameters, again and again on a finer one. No derivatives, no line.

/** Normal distribution by its power series, Phi(z) = 1/2 + phi(z) (z + z^3/3 + z^5/15 + ...). */
export function phiBySeries(z: number): number {
  if (Math.abs(z) > 8) return z < 0 ? 0 : 1;
  let [term, sum] = [z, z];
  for (let odd = 3; Math.abs(term) > 1e-17 * Math.abs(sum); odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return 0.5 + (sum * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
}

/** Passing % at a size by size parameter and second parameter as the trade names them. */
export const writtenOut: Readonly<Record<ModelId, (x: number, size: number, shape: number) => number>> = {
  rosinRammler: (x, size, spread) => 100 * (1 - Math.exp(-((x / size) ** spread))),
  gatesGaudinSchuhmann: (x, size, exponent) => Math.min(100, 100 * (x / size) ** exponent),
  logNormal: (x, median, gsd) => 100 * phiBySeries(Math.log(x / median) / Math.log(gsd)),
};

/** Bounds of the second parameter, as the logarithm of a slope: between nearly flat and nearly a step. */
const SLOPES = { low: Math.log(0.05), high: Math.log(60) };
const shapeOf = (id: ModelId, slope: number) => (id === "logNormal" ? Math.exp(1 / slope) : slope);

export interface Found {
  readonly size: number;
  readonly shape: number;
  readonly sum: number;
}

export const sumOfSquares = (id: ModelId, x: readonly number[], p: readonly number[], size: number, shape: number) =>
  x.reduce((sum, um, i) => sum + (p[i]! - writtenOut[id](um, size, shape)) ** 2, 0);

const CELLS = 24;

/** The best pair on a grid that is laid again around the best so far, each time at a third of the width. */
export function bruteForce(id: ModelId, x: readonly number[], p: readonly number[], rounds = 22): Found {
  let at = { a: Math.log(Math.sqrt(Math.min(...x) * Math.max(...x))), b: (SLOPES.low + SLOPES.high) / 2 };
  let wide = { a: Math.log(Math.max(...x) / Math.min(...x)) / 2 + 2.5, b: (SLOPES.high - SLOPES.low) / 2 };
  let best: Found = { size: 0, shape: 0, sum: Number.POSITIVE_INFINITY };
  for (let round = 0; round < rounds; round += 1) {
    const centre = at;
    for (let i = -CELLS; i <= CELLS; i += 1) {
      for (let j = -CELLS; j <= CELLS; j += 1) {
        const a = centre.a + (wide.a * i) / CELLS;
        const b = centre.b + (wide.b * j) / CELLS;
        const [size, shape] = [Math.exp(a), shapeOf(id, Math.exp(b))];
        const sum = sumOfSquares(id, x, p, size, shape);
        if (sum < best.sum)
          [best, at] = [
            { size, shape, sum },
            { a, b },
          ];
      }
    }
    wide = { a: wide.a / 3, b: wide.b / 3 };
  }
  return best;
}
