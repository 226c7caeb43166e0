import { logGamma } from "../distributions/logGamma.ts";

/** Steps of the tables; with these the critical values stand to four decimals. */
const STEPS = 8000;

/** `P(M <= t)` for the largest normed residual `M = (x_max - mean) / sqrt SSD` of k normal results. */
export type LargestResidual = (t: number) => number;

const OF_TWO = Math.SQRT1_2;

/** By steps of u, `t = sin(u) sqrt((k - 1) / k)`. */
function tabulated(k: number, before: LargestResidual): Float64Array {
  const step = Math.PI / 2 / STEPS;
  const logBeta = logGamma(0.5) + logGamma((k - 2) / 2) - logGamma((k - 1) / 2);
  const height = (u: number) => Math.cos(u) ** (k - 3) * before(Math.sqrt(k / (k - 1)) * Math.tan(u));
  const table = new Float64Array(STEPS + 1);
  let [sum, last] = [0, height(0)];
  for (let i = 1; i <= STEPS; i++) {
    const next = height(Math.min(i * step, Math.PI / 2 - 1e-12));
    sum += ((last + next) / 2) * step;
    table[i] = Math.min(1, k * Math.exp(-logBeta) * sum);
    last = next;
  }
  return table;
}

function readFrom(table: Float64Array, k: number): LargestResidual {
  return (t) => {
    const sine = t * Math.sqrt(k / (k - 1));
    if (sine <= 0) return 0;
    if (sine >= 1) return 1;
    const at = (Math.asin(sine) * STEPS * 2) / Math.PI;
    const below = Math.floor(at);
    const [low, high] = [table[below] ?? 1, table[below + 1] ?? 1];
    return low + (at - below) * (high - low);
  };
}

const KNOWN: LargestResidual[] = [];

/**
 * The distribution of the largest normed residual of k normal results, by the recursion from k - 1 to k: given one
 * result's residual r, it is the largest if that of the others, anew, is at most `r k/(k-1) / sqrt(1 - r^2 k/(k-1))`,
 *
 *     F_k(t) = k integral up to t of f_k(r) F_{k-1}(...) dr,   f_k that of one normed residual
 *
 * with r as a sine and the integral by the trapezoidal rule. Of two results it is `1 / sqrt 2`, always.
 *
 * @param k at least 2
 * @source F. E. Grubbs, Ann. Math. Statist. 21 (1950) 27-58 (memory); D. M. Hawkins, Identification of Outliers (memory)
 */
export function largestResidual(k: number): LargestResidual {
  if (k < 2) throw new RangeError(`a largest residual needs two results, not ${k}`);
  const known = KNOWN[k];
  if (known) return known;
  const found: LargestResidual =
    k === 2 ? (t) => (t >= OF_TWO ? 1 : 0) : readFrom(tabulated(k, largestResidual(k - 1)), k);
  KNOWN[k] = found;
  return found;
}
