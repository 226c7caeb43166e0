import { logGamma } from "./logGamma.ts";
import { rangeMoments } from "./rangeMoments.ts";

/** The factors of control charts for samples of one size, by the letters that every table of them uses. */
export interface ChartConstants {
  readonly d2: number;
  readonly d3: number;
  readonly c4: number;
  readonly c5: number;
  readonly A2: number;
  readonly A3: number;
  readonly B3: number;
  readonly B4: number;
  readonly D3: number;
  readonly D4: number;
}

export const LARGEST_SAMPLE = 25;
const made = new Map<number, ChartConstants>();

function make(n: number): ChartConstants {
  const { d2, d3 } = rangeMoments(n);
  const c4 = Math.sqrt(2 / (n - 1)) * Math.exp(logGamma(n / 2) - logGamma((n - 1) / 2));
  const c5 = Math.sqrt(1 - c4 * c4);
  return {
    d2,
    d3,
    c4,
    c5,
    A2: 3 / (d2 * Math.sqrt(n)),
    A3: 3 / (c4 * Math.sqrt(n)),
    B3: Math.max(0, 1 - (3 * c5) / c4),
    B4: 1 + (3 * c5) / c4,
    D3: Math.max(0, 1 - (3 * d3) / d2),
    D4: 1 + (3 * d3) / d2,
  };
}

/**
 * Control chart constants for samples of n, computed and not read from a rounded table; dimensionless.
 *
 *     d2 = E(W)   d3 = sd(W)   c4 = E(s) = sqrt(2/(n-1)) Gamma(n/2) / Gamma((n-1)/2)   c5 = sqrt(1 - c4^2)
 *     A2 = 3/(d2 sqrt n)   A3 = 3/(c4 sqrt n)   B3, B4 = 1 -+ 3 c5/c4   D3, D4 = 1 -+ 3 d3/d2   (B3, D3 not below 0)
 *
 * @param n 2 to 25; anything else is a fault of the caller and throws
 * @source D. C. Montgomery, Introduction to Statistical Quality Control, appendix VI (memory)
 */
export function chartConstants(n: number): ChartConstants {
  if (!(Number.isInteger(n) && n >= 2 && n <= LARGEST_SAMPLE))
    throw new RangeError(`chart constants are for samples of 2 to ${LARGEST_SAMPLE}, not ${n}`);
  const known = made.get(n) ?? make(n);
  made.set(n, known);
  return known;
}
