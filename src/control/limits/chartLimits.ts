import { type ChartKind, constantsFor, SPREAD_RULES } from "../chartKind.ts";
import { meanOf } from "../summary.ts";

/** Centre line and limits of one kind of line, in the unit of what is plotted. */
export interface Lines {
  readonly centre: number;
  readonly lower: number;
  readonly upper: number;
}

/** What limits are drawn from: where the process stands and how much one plotted value scatters. */
export interface CentreAndSigma {
  readonly centre: number;
  /** Standard deviation of a plotted value: of a mean, where the chart is of means. */
  readonly sigma: number;
}

export interface ChartLimits extends CentreAndSigma, Lines {
  /** The lines of the second chart, of moving ranges, ranges or standard deviations. */
  readonly spread: Lines;
}

/** Half-width of the limits of every chart of values, in sigma. */
export const LIMIT_SIGMAS = 3;

/**
 * Centre and sigma from plotted values and their spreads, in the unit of the values.
 *
 *     individuals           centre = mean x      sigma = mean MR / d2(2)
 *     mean and range        centre = mean x-bar  sigma = mean R / (d2(n) sqrt n)
 *     mean and deviation    centre = mean x-bar  sigma = mean s / (c4(n) sqrt n)
 *
 * @param replicates n, portions a test; 1 on a chart of individuals
 * @source NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.1 and 6.3.2.2
 */
export function centreAndSigma(
  kind: ChartKind,
  replicates: number,
  { values, spreads }: { readonly values: readonly number[]; readonly spreads: readonly number[] },
): CentreAndSigma {
  const portionSigma = meanOf(spreads) / SPREAD_RULES[kind].unbias(constantsFor(kind, replicates));
  return { centre: meanOf(values), sigma: portionSigma / Math.sqrt(replicates) };
}

/**
 * The lines of a chart of values and of its chart of spreads.
 *
 *     centre -+ 3 sigma (the same as A2 or A3 times the mean spread);   D3, D4 (or B3, B4) times the mean spread
 *
 * @source NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.1 and 6.3.2.2
 */
export function limitsFrom(kind: ChartKind, replicates: number, { centre, sigma }: CentreAndSigma): ChartLimits {
  const constants = constantsFor(kind, replicates);
  const { unbias, factors } = SPREAD_RULES[kind];
  const spread = sigma * Math.sqrt(replicates) * unbias(constants);
  const [low, high] = factors(constants);
  return {
    centre,
    sigma,
    lower: centre - LIMIT_SIGMAS * sigma,
    upper: centre + LIMIT_SIGMAS * sigma,
    spread: { centre: spread, lower: low * spread, upper: high * spread },
  };
}
