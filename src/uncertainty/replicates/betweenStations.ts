import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { type CochranTest, cochran } from "./cochran.ts";
import { type GrubbsTest, grubbs, type OutlierWord, outlierWord } from "./grubbs.ts";
import { type GrubbsPair, grubbsPair } from "./grubbsPair.ts";
import { mandelH, mandelK } from "./mandel.ts";
import { REPEATABILITY_LIMIT } from "./replicates.ts";
import { type Summary, summaryOf } from "./summary.ts";

export interface StationResults {
  readonly station: string;
  readonly results: readonly number[];
}

export interface StationFigures {
  readonly station: string;
  readonly count: number;
  readonly mean: number;
  readonly sd: number | null;
  /** How far its mean lies from that of all stations, in their scatter; null where all means are the same. */
  readonly h: number | null;
  /** Its own scatter against that of all; null of a single result. */
  readonly k: number | null;
  readonly hWord: OutlierWord | null;
  readonly kWord: OutlierWord | null;
}

export interface BetweenStations {
  readonly stations: readonly StationFigures[];
  /** Mean over all results. */
  readonly mean: number;
  /** Standard deviations: within a station, between stations, and both together; limits 2.8 times as large. */
  readonly sr: number;
  readonly sL: number;
  readonly sR: number;
  readonly r: number;
  readonly R: number;
  readonly cochran: CochranTest | null;
  readonly grubbs: GrubbsTest | null;
  /** Of the means, asked only where no single one is an outlier. */
  readonly grubbsPair: GrubbsPair | null;
}

function fault(groups: readonly StationResults[]): string | null {
  if (groups.length < 2) return "results of at least two stations are needed";
  const none = groups.find(({ results }) => results.length === 0);
  if (none) return `${none.station} has no result: leave it out`;
  const again = groups.some(({ results }) => results.length > 1);
  return again ? null : "at least one station must have tested more than once";
}

/** Pooled variance within the stations: `sum (n_i - 1) s_i^2 / sum (n_i - 1)`. */
function withinSquare(summaries: readonly Summary[]): number {
  const free = summaries.reduce((sum, { count }) => sum + count - 1, 0);
  return summaries.reduce((sum, { count, sd }) => sum + (count - 1) * (sd ?? 0) ** 2, 0) / free;
}

/** Variance between the stations, not below 0: `(s_d^2 - s_r^2) / n`, with the mean number `(N - sum n_i^2 / N) / (p - 1)`. */
function betweenSquare(summaries: readonly Summary[], mean: number, within: number): number {
  const between = summaries.length - 1;
  const all = summaries.reduce((sum, { count }) => sum + count, 0);
  const squares = summaries.reduce((sum, { count }) => sum + count ** 2, 0);
  const scatter = summaries.reduce((sum, s) => sum + s.count * (s.mean - mean) ** 2, 0) / between;
  return Math.max(0, (scatter - within) / ((all - squares / all) / between));
}

const meanOfAll = (summaries: readonly Summary[]): number =>
  summaries.reduce((sum, { count, mean }) => sum + count * mean, 0) /
  summaries.reduce((sum, { count }) => sum + count, 0);

interface Consistency {
  readonly means: Summary;
  /** Mean of the variances of the stations that tested more than once. */
  readonly meanSquare: number;
  readonly repeated: number;
  readonly typicalCount: number;
}

function consistencyOf(summaries: readonly Summary[]): Consistency {
  const repeated = summaries.filter(({ sd }) => sd !== null);
  const meanSquare = repeated.reduce((sum, { sd }) => sum + (sd ?? 0) ** 2, 0) / repeated.length;
  const counts = repeated.reduce((sum, { count }) => sum + count, 0) / repeated.length;
  const means = summaryOf(summaries.map(({ mean }) => mean));
  return { means, meanSquare, repeated: repeated.length, typicalCount: Math.max(2, Math.round(counts)) };
}

function figuresOf(station: string, summary: Summary, all: Consistency, stations: number): StationFigures {
  const { means, meanSquare, repeated, typicalCount } = all;
  const h = means.sd ? (summary.mean - means.mean) / means.sd : null;
  const k = summary.sd !== null && meanSquare > 0 ? summary.sd / Math.sqrt(meanSquare) : null;
  const testH = h !== null && stations > 2;
  const testK = k !== null && repeated > 1;
  return {
    station,
    ...summary,
    h,
    k,
    hWord: testH ? outlierWord(Math.abs(h), mandelH(stations, 0.05), mandelH(stations, 0.01)) : null,
    kWord: testK ? outlierWord(k, mandelK(repeated, typicalCount, 0.05), mandelK(repeated, typicalCount, 0.01)) : null,
  };
}

/**
 * The same material tested at several stations, one-way analysis for one level: repeatability and reproducibility
 *
 *     s_r^2 = sum (n_i - 1) s_i^2 / sum (n_i - 1),   s_L^2 = (s_d^2 - s_r^2) / n,   s_R^2 = s_r^2 + s_L^2
 *
 * with unequal numbers allowed, Mandel's h and k of every station, Cochran's test on the scatters and Grubbs' test on
 * the means. Nothing is left out of the figures; what stands out is named.
 *
 * @returns the figures, or why these results cannot be compared
 * @source ISO 5725-2:1994, clause 7 (memory)
 */
export function betweenStations(groups: readonly StationResults[]): Outcome<BetweenStations> {
  const reason = fault(groups);
  if (reason !== null) return refused(reason);
  const summaries = groups.map(({ results }) => summaryOf(results));
  const mean = meanOfAll(summaries);
  const within = withinSquare(summaries);
  const between = betweenSquare(summaries, mean, within);
  const all = consistencyOf(summaries);
  const sR = Math.sqrt(within + between);
  const means = summaries.map((s) => s.mean);
  const ofMeans = grubbs(means);
  return accepted({
    stations: summaries.map((s, i) => figuresOf(groups[i]?.station ?? "", s, all, groups.length)),
    mean,
    sr: Math.sqrt(within),
    sL: Math.sqrt(between),
    sR,
    r: REPEATABILITY_LIMIT * Math.sqrt(within),
    R: REPEATABILITY_LIMIT * sR,
    cochran: cochran(
      summaries.map(({ sd }) => sd),
      summaries.map(({ count }) => count),
    ),
    grubbs: ofMeans,
    grubbsPair: ofMeans?.word === "outlier" ? null : grubbsPair(means),
  });
}
