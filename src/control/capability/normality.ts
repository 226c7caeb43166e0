import { normalCdf } from "../../grading/normal.ts";
import { deviationOf, meanOf } from "../summary.ts";

/** What the Anderson-Darling test says of values. */
export type Normality =
  | {
      readonly determinable: true;
      /** A* squared: A squared, corrected for the number of values. */
      readonly statistic: number;
      /** The share of truly normal sets that look as far from normal as this one, or farther. */
      readonly p: number;
      /** Whether the test finds nothing against it at 5 %. */
      readonly normal: boolean;
    }
  | { readonly determinable: false; readonly reason: string };

const FEWEST = 8;

/** Critical value of A* squared at 5 %, mean and standard deviation both estimated. */
const AT_5_PCT = 0.752;

/** Pieces of the curve of p over A* squared: up to where, and ln p or ln(1 - p) as a quadratic. */
const PIECES = [
  { upTo: 0.2, rest: true, a: -13.436, b: 101.14, c: -223.73 },
  { upTo: 0.34, rest: true, a: -8.318, b: 42.796, c: -59.938 },
  { upTo: 0.6, rest: false, a: 0.9177, b: -4.279, c: -1.38 },
  { upTo: 13, rest: false, a: 1.2937, b: -5.709, c: 0.0186 },
] as const;

/**
 * The share of normal sets whose A* squared is larger than this, mean and standard deviation estimated from each set.
 *
 * @source R. B. D'Agostino in D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), table 4.9 (memory)
 */
export function normalShareBeyond(statistic: number): number {
  const piece = PIECES.find(({ upTo }) => statistic < upTo);
  if (!piece) return 0;
  const share = Math.exp(piece.a + piece.b * statistic + piece.c * statistic * statistic);
  return piece.rest ? 1 - share : share;
}

/**
 * Anderson-Darling's A squared against a normal distribution with the values' own mean and standard deviation.
 *
 *     A^2 = -n - 1/n * sum over i of (2i - 1) [ ln F(z(i)) + ln(1 - F(z(n+1-i))) ],   z in rising order
 *
 * @param values two or more that are not all alike
 * @source T. W. Anderson and D. A. Darling, J. Am. Stat. Assoc. 49 (1954) 765-769 (memory)
 */
export function andersonDarling(values: readonly number[]): number {
  const [mean, deviation, n] = [meanOf(values), deviationOf(values), values.length];
  const z = values.map((value) => (value - mean) / deviation).toSorted((a, b) => a - b);
  const terms = z.map((low, i) => {
    const high = z[n - 1 - i] ?? low;
    return (2 * i + 1) * (Math.log(normalCdf(low)) + Math.log(normalCdf(-high)));
  });
  return -n - terms.reduce((sum, term) => sum + term, 0) / n;
}

/**
 * Whether values could come from a normal distribution: Anderson-Darling's test with mean and deviation estimated.
 *
 *     A*^2 = A^2 (1 + 0.75/n + 2.25/n^2),   not normal from 0.752 on (5 %)
 *
 * Values rounded to few steps look less normal than they are.
 *
 * @returns undetermined for fewer than 8 values, or values that are all alike
 * @source R. B. D'Agostino in D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), table 4.7 (memory)
 */
export function normalityOf(values: readonly number[]): Normality {
  const n = values.length;
  if (n < FEWEST) return { determinable: false, reason: `whether values are normal needs ${FEWEST} of them` };
  if (deviationOf(values) === 0) return { determinable: false, reason: "all values are alike" };
  const statistic = andersonDarling(values) * (1 + 0.75 / n + 2.25 / n ** 2);
  return { determinable: true, statistic, p: normalShareBeyond(statistic), normal: statistic < AT_5_PCT };
}
