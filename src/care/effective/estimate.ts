import type { Random } from "../random.ts";
import { meanOf, medianOf, middleMean } from "../robust.ts";
import { studentQuantile } from "../studentT.ts";
import { blockError, blockLength } from "./blocks.ts";
import { type Departure, departuresOf } from "./departures.ts";
import type { CurvePoint } from "./scales.ts";
import { FEWEST_TESTS } from "./tests.ts";

/** The points of each test, oldest first: the tests looked at, and those from when the stack was known to be right. */
export interface Series {
  readonly now: readonly (readonly CurvePoint[])[];
  readonly before: readonly (readonly CurvePoint[])[] | null;
}

/** ln(effective / known size) of one sieve, with its range. */
export interface Estimate {
  readonly departure: number;
  readonly from: number;
  readonly to: number;
  readonly tests: number;
}

/** How sure, and with how many resamples. */
export interface Sureness {
  readonly confidence: number;
  readonly resamples: number;
  readonly random: Random;
}

/** No curve through neighbours is believed to better than this, however many tests there are. */
const NO_BETTER = 0.003;

interface Summary {
  readonly byDrawing: readonly number[];
  readonly error: number;
  readonly degrees: number;
  readonly tests: number;
}

function summaryOf(departures: readonly Departure[], { resamples, random }: Sureness): Summary {
  const drawings = departures[0]?.map((_, d) => departures.map((one) => one[d] ?? 0)) ?? [];
  const blocks = Math.floor(departures.length / blockLength(departures.length));
  return {
    byDrawing: drawings.map(middleMean),
    error: blockError(departures.map(meanOf), resamples, random),
    degrees: Math.max(1, blocks - 1),
    tests: departures.length,
  };
}

function estimateFrom(now: Summary, before: Summary | null, confidence: number): Estimate {
  const byDrawing = now.byDrawing.map((mean, d) => mean - (before?.byDrawing[d] ?? 0));
  const degrees = Math.min(now.degrees, before?.degrees ?? now.degrees);
  const chance = studentQuantile((1 + confidence) / 2, degrees) * Math.hypot(now.error, before?.error ?? 0);
  const beyond = Math.max(chance, NO_BETTER);
  return {
    departure: medianOf(byDrawing),
    from: Math.min(...byDrawing) - beyond,
    to: Math.max(...byDrawing) + beyond,
    tests: now.tests,
  };
}

/**
 * Departure of one sieve over many tests: for each drawing of the curve the robust mean over the tests (less that of
 * the tests from before, where there are any). Their median is the estimate, and the range
 *
 *     smallest of the drawings - t s ... largest of the drawings + t s,   t s at least 0.003
 *
 * with s from the block bootstrap and t for as many degrees of freedom as there are whole blocks, less one. So the
 * range holds both chance and how little the neighbours say of the curve between them.
 *
 * @param supports sizes of the sieves that the curves may rest on
 * @returns why there is none, in words, where too few tests say anything of this sieve
 * @source own, no source; its error rates are in docs/care-simulations.md
 */
export function estimateOf(
  series: Series,
  apertureUm: number,
  supports: ReadonlySet<number>,
  sureness: Sureness,
): Estimate | string {
  const now = departuresOf(series.now, apertureUm, supports);
  const before = series.before && departuresOf(series.before, apertureUm, supports);
  if (now.length < FEWEST_TESTS) return `only ${now.length} tests tell of it, ${FEWEST_TESTS} are needed`;
  if (before && before.length < FEWEST_TESTS)
    return `only ${before.length} tests from when the stack was right tell of it, ${FEWEST_TESTS} are needed`;
  const summed = summaryOf(now, sureness);
  return estimateFrom(summed, before && summaryOf(before, sureness), sureness.confidence);
}
