import { normalCdf } from "../../grading/normal.ts";

/** Mean and standard deviation of the range of n standard normal values. */
export interface RangeMoments {
  readonly d2: number;
  readonly d3: number;
}

const STEP = 0.1;
const REACH = 8;
const WIDEST = 12;
/** Weights of Boole's rule, as often as needed: 7, 32, 12, 32, 14, 32, 12, 32, 14, ..., 7. */
const BOOLE = [14, 32, 12, 32];

const grid = Array.from({ length: Math.round((2 * REACH) / STEP) + 1 }, (_, i) => i * STEP - REACH);
const below = Array.from({ length: Math.round((2 * REACH + WIDEST) / STEP) + 1 }, (_, i) =>
  normalCdf(i * STEP - REACH),
);
const density = grid.map((x) => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI));

/** Share of samples of n whose range is above `steps` of the grid. */
function shareAbove(n: number, steps: number): number {
  let within = 0;
  for (const [i, f] of density.entries()) within += f * ((below[i + steps] ?? 1) - (below[i] ?? 0)) ** (n - 1);
  return 1 - n * within * STEP;
}

/**
 * Mean d2 and standard deviation d3 of the range W of n standard normal values, dimensionless.
 *
 *     P(W <= w) = n * integral of f(x) [F(x + w) - F(x)]^(n-1) dx,   d2 = E(W),   d3^2 = E(W^2) - d2^2
 *
 * by the trapezoidal rule over x and Boole's rule over w; within 5e-8.
 *
 * @param n values in a sample, 2 to 25
 * @source L. H. C. Tippett, Biometrika 17 (1925) 364-387 (memory)
 */
export function rangeMoments(n: number): RangeMoments {
  const last = Math.round(WIDEST / STEP);
  let [mean, square] = [0, 0];
  for (let i = 0; i <= last; i++) {
    const weight = i === 0 || i === last ? 7 : (BOOLE[i % 4] ?? 0);
    const above = weight * shareAbove(n, i);
    mean += above;
    square += 2 * i * STEP * above;
  }
  const d2 = (mean * 2 * STEP) / 45;
  return { d2, d3: Math.sqrt((square * 2 * STEP) / 45 - d2 * d2) };
}
