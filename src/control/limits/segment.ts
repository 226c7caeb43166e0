import type { ChartChoice } from "../chartChoice.ts";
import { SPREAD_RULES } from "../chartKind.ts";
import type { Plotted } from "../chartPoint.ts";
import { type CentreAndSigma, type ChartLimits, centreAndSigma, limitsFrom } from "./chartLimits.ts";
import { type FrozenLimits, fitsChart } from "./frozenLimits.ts";
import type { Span } from "./spans.ts";

/** Where limits come from: some first tests of the stretch itself, or limits frozen before. */
export type Origin =
  | { readonly from: "baseline"; readonly indices: readonly number[]; readonly outliers: readonly number[] }
  | { readonly from: "frozen"; readonly frozen: FrozenLimits };

export type SegmentLimits =
  | { readonly determinable: true; readonly limits: ChartLimits; readonly origin: Origin }
  | { readonly determinable: false; readonly reason: string };

/** What of a choice decides which tests are reckoned with, and how. */
export type Reckoning = Pick<ChartChoice, "chart" | "leftOut">;

/** Places of the tests of a stretch that are not left out. */
export const keptOf = (tests: readonly Plotted[], { leftOut }: Reckoning): number[] =>
  tests.flatMap(({ testId }, i) => (leftOut.includes(testId) ? [] : [i]));

/**
 * Spreads of a stretch in the order of its tests; null where there is none: a moving range has none at the start, nor
 * to or from a test that is left out.
 */
export function spreadsOf(tests: readonly Plotted[], choice: Reckoning): (number | null)[] {
  const kept = new Set(keptOf(tests, choice));
  const { spreadOf } = SPREAD_RULES[choice.chart];
  return tests.map(({ portions }, i) => {
    if (choice.chart === "individuals" && !kept.has(i)) return null;
    return spreadOf(portions, kept.has(i - 1) ? (tests[i - 1]?.value ?? null) : null);
  });
}

const isWithin = (one: number, { lower, upper }: { lower: number; upper: number }) => one >= lower && one <= upper;

/** What the first so many tests of a stretch that are not left out give to reckon with. */
export function reckoned(tests: readonly Plotted[], choice: Reckoning, most = Number.POSITIVE_INFINITY) {
  const kept = keptOf(tests, choice).slice(0, most);
  const all = spreadsOf(tests, choice);
  return { kept, values: kept.flatMap((i) => tests[i]?.value ?? []), spreads: kept.flatMap((i) => all[i] ?? []) };
}

const noLimits = (reason: string): SegmentLimits => ({ determinable: false, reason });

function baselineLimits(tests: readonly Plotted[], span: Span, replicates: number, choice: ChartChoice): SegmentLimits {
  const { kept, values, spreads } = reckoned(tests, choice, choice.baseline.tests);
  const { least } = choice.baseline;
  if (kept.length < Math.max(2, least))
    return noLimits(`limits need ${Math.max(2, least)} tests, there are ${kept.length}`);
  if (spreads.length === 0) return noLimits("limits need two tests in a row that are not left out");
  const found: CentreAndSigma = centreAndSigma(choice.chart, replicates, { values, spreads });
  if (!(found.sigma > 0)) return noLimits("the tests don't scatter: no limits");
  const limits = limitsFrom(choice.chart, replicates, found);
  const all = spreadsOf(tests, choice);
  const outliers = kept.filter(
    (i) => !isWithin(tests[i]?.value ?? limits.centre, limits) || (all[i] ?? 0) > limits.spread.upper,
  );
  const inChart = (places: readonly number[]) => places.map((i) => span.from + i);
  return {
    determinable: true,
    limits,
    origin: { from: "baseline", indices: inChart(kept), outliers: inChart(outliers) },
  };
}

/** Frozen limits hold from their first test to the next change; of several the one that was frozen for the latest. */
function frozenFor({ startMs, endMs }: Span, lastMs: number, replicates: number, choice: ChartChoice) {
  const since = ({ sinceAt }: FrozenLimits) => Date.parse(sinceAt);
  return choice.frozen
    .filter((one) => fitsChart(one, choice.chart, replicates))
    .filter((one) => since(one) >= startMs && since(one) < endMs && since(one) <= lastMs)
    .toSorted((a, b) => since(a) - since(b))
    .at(-1);
}

/**
 * The limits of one stretch between changes: those frozen for it, else from its first tests that are not left out.
 *
 * @param tests those of the span
 * @returns limits and where they come from, or the reason why there are none yet
 */
export function segmentLimits(
  tests: readonly Plotted[],
  span: Span,
  replicates: number,
  choice: ChartChoice,
): SegmentLimits {
  const frozen = frozenFor(span, Date.parse(tests.at(-1)?.at ?? ""), replicates, choice);
  if (!frozen) return baselineLimits(tests, span, replicates, choice);
  const limits = limitsFrom(choice.chart, replicates, frozen);
  return { determinable: true, limits, origin: { from: "frozen", frozen } };
}
