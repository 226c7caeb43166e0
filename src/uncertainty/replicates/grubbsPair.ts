import type { OutlierWord } from "./grubbs.ts";
import { largestResidual } from "./largestResidual.ts";
import { summaryOf } from "./summary.ts";

/** The numbers of results that the published table covers. */
const [FEWEST, MOST] = [4, 40];
const [STEPS_OF_SHARE, STEPS_OF_ANGLE] = [1000, 400];

export interface GrubbsPair {
  readonly side: "two largest" | "two smallest";
  /** Their places in the list. */
  readonly at: readonly number[];
  /** The sum of squares without them over that of all: small where they do not belong. */
  readonly statistic: number;
  readonly critical5: number;
  readonly critical1: number;
  readonly word: OutlierWord;
}

const weight = (w: number, n: number): number => w ** ((n - 3) / 2);

/** `P(share <= w)` of the sum of squares that is left without the two largest, by steps of w. */
function chances(n: number): Float64Array {
  const k = n - 2;
  const below = largestResidual(k);
  const least = Float64Array.from({ length: STEPS_OF_ANGLE }, (_, i) => {
    const angle = (Math.PI * (i + 0.5)) / STEPS_OF_ANGLE;
    return (Math.sqrt(n / k) * Math.cos(angle) - Math.sin(angle)) / Math.SQRT2;
  }).filter((c) => c > 0);
  const bothLargest = (w: number) =>
    least.reduce((sum, c) => sum + below(c * Math.sqrt((1 - w) / w)), 0) / STEPS_OF_ANGLE;
  const table = new Float64Array(STEPS_OF_SHARE + 1);
  let [sum, last] = [0, bothLargest(0.5 / STEPS_OF_SHARE)];
  for (let i = 1; i <= STEPS_OF_SHARE; i++) {
    const w = i / STEPS_OF_SHARE;
    const next = bothLargest(w);
    sum += ((last + next) / 2) * (weight(w, n) - weight(w - 1 / STEPS_OF_SHARE, n));
    table[i] = (n * (n - 1) * sum) / 2;
    last = next;
  }
  return table;
}

const KNOWN = new Map<number, Float64Array>();

/**
 * Critical value of Grubbs' test for a pair of outliers on one side, either side: a share of the sum of squares that is
 * left without the pair and falls below this with half the risk on each side. With the pair's own directions from the
 * mean of the others at a random angle, and the others' largest residual M independent of them,
 *
 *     P(share <= d) = n (n - 1) / 2  integral of dw^((n-3)/2) up to d of P(M < c(angle) sqrt((1 - w) / w))
 *
 * @param n from 4 to 40
 * @source the distribution as written here, integrated; it gives the values of ISO 5725-2:1994, table 5, and of
 *   F. E. Grubbs, Technometrics 11 (1969) 1-21 (memory)
 * @example
 * grubbsPairCritical(10, 0.05).toFixed(3) // => "0.186"
 */
export function grubbsPairCritical(n: number, risk: number): number {
  if (n < FEWEST || n > MOST)
    throw new RangeError(`Grubbs' test of a pair is for ${FEWEST} to ${MOST} results, not ${n}`);
  const table = KNOWN.get(n) ?? chances(n);
  KNOWN.set(n, table);
  const at = table.findIndex((chance) => chance >= risk / 2);
  const [low, high] = [table[at - 1] ?? 0, table[at] ?? 1];
  const [from, to] = [weight((at - 1) / STEPS_OF_SHARE, n), weight(at / STEPS_OF_SHARE, n)];
  return (from + ((to - from) * (risk / 2 - low)) / (high - low)) ** (2 / (n - 3));
}

const squaresOf = (results: readonly number[]): number => {
  const { mean } = summaryOf(results);
  return results.reduce((sum, x) => sum + (x - mean) ** 2, 0);
};

/**
 * Whether the two largest or the two smallest results do not belong to the others: the sum of squares without them over
 * that of all. Of the two sides the one that stands out more.
 *
 * @returns null for fewer than 4 or more than 40 results, and for results without scatter, which cannot be tested
 * @source ISO 5725-2:1994, 7.3.4.2 (memory)
 */
export function grubbsPair(results: readonly number[]): GrubbsPair | null {
  const n = results.length;
  if (n < FEWEST || n > MOST) return null;
  const all = squaresOf(results);
  if (all === 0) return null;
  const order = [...results.keys()].toSorted((a, b) => (results[a] ?? 0) - (results[b] ?? 0));
  const without = (at: readonly number[]) => squaresOf(results.filter((_, i) => !at.includes(i))) / all;
  const smallest = order.slice(0, 2);
  const largest = order.slice(-2);
  const [ofSmallest, ofLargest] = [without(smallest), without(largest)];
  const isLow = ofSmallest < ofLargest;
  const statistic = Math.min(ofSmallest, ofLargest);
  const [critical5, critical1] = [grubbsPairCritical(n, 0.05), grubbsPairCritical(n, 0.01)];
  const word = statistic < critical1 ? "outlier" : statistic < critical5 ? "straggler" : "none";
  return {
    side: isLow ? "two smallest" : "two largest",
    at: isLow ? smallest : largest,
    ...{ statistic, critical5, critical1, word },
  };
}
