import type { ChartKind } from "../chartKind.ts";
import { centreAndSigma } from "../limits/chartLimits.ts";
import { deviationOf, meanOf } from "../summary.ts";
import { effectiveFreedom } from "./freedom.ts";
import { type CapabilityIndex, centredIndex, type Estimate, spreadIndex, type Tolerance } from "./indices.ts";
import { type Normality, normalityOf } from "./normality.ts";

/** How well a process fits into what the customer allows. */
export interface Capability {
  readonly tests: number;
  readonly confidence: number;
  readonly mean: number | null;
  /** Standard deviation of a single value: from one test to the next (or within tests), and of all of them. */
  readonly sigmaWithin: number | null;
  readonly sigmaOverall: number | null;
  readonly cp: CapabilityIndex;
  readonly cpk: CapabilityIndex;
  readonly pp: CapabilityIndex;
  readonly ppk: CapabilityIndex;
  readonly normality: Normality;
  /** What keeps the indices from meaning what they seem to, in words. */
  readonly warnings: readonly string[];
}

/** Tests that capability is asked of. */
export interface CapabilityTests {
  readonly kind: ChartKind;
  readonly replicates: number;
  /** The values of each test: its portions, or the one value. */
  readonly portions: readonly (readonly number[])[];
  /** Moving ranges, ranges or standard deviations, as the chart has them. */
  readonly spreads: readonly number[];
  /** Whether the chart has signals among these tests. */
  readonly signals: boolean;
}

export const CONFIDENCE = 0.95;

/** Fewer tests than this and an index says little: NIST/SEMATECH e-Handbook 6.1.6 asks for about 50 (memory). */
export const ENOUGH_TESTS = 50;

function warningsOf({ portions, signals }: CapabilityTests, normality: Normality): string[] {
  const few = portions.length < ENOUGH_TESTS;
  return [
    ...(few ? [`drawn from ${portions.length} tests, fewer than about ${ENOUGH_TESTS}: see the bounds`] : []),
    ...(normality.determinable && !normality.normal ? ["the values are not normal: shares beyond a limit differ"] : []),
    ...(signals ? ["the chart has signals: the indices tell of the past, not of what comes"] : []),
  ];
}

function nothing(tests: CapabilityTests, normality: Normality, reason: string): Capability {
  const absent = { determinable: false, reason } as const;
  const of = { tests: tests.portions.length, confidence: CONFIDENCE, normality };
  const indices = { cp: absent, cpk: absent, pp: absent, ppk: absent };
  return { ...of, mean: null, sigmaWithin: null, sigmaOverall: null, ...indices, warnings: [] };
}

/**
 * Capability of single values: Cp and Cpk with the sigma within, Pp and Ppk with the overall standard deviation
 * (convention CP-16), each with two-sided bounds; on charts of replicates a single value is that of one portion.
 *
 * @returns indices that are undetermined, with the reason, for fewer than two tests, values all alike, or no limit
 * @source NIST/SEMATECH e-Handbook of Statistical Methods 6.1.6
 */
export function capabilityOf(tests: CapabilityTests, tolerance: Tolerance, confidence = CONFIDENCE): Capability {
  const { kind, replicates, portions, spreads } = tests;
  const values = portions.flat();
  const normality = normalityOf(values);
  if (portions.length < 2 || spreads.length === 0) return nothing(tests, normality, "it needs two tests or more");
  const within = centreAndSigma(kind, replicates, { values, spreads }).sigma * Math.sqrt(replicates);
  const overall = deviationOf(values);
  if (!(within > 0 && overall > 0)) return nothing(tests, normality, "the values don't scatter");
  const mean = meanOf(values);
  const base = { mean, tests: values.length };
  const short: Estimate = { ...base, sigma: within, freedom: effectiveFreedom(kind, replicates, spreads.length) };
  const long: Estimate = { ...base, sigma: overall, freedom: values.length - 1 };
  return {
    tests: portions.length,
    confidence,
    mean,
    sigmaWithin: within,
    sigmaOverall: overall,
    cp: spreadIndex(tolerance, short, confidence),
    cpk: centredIndex(tolerance, short, confidence),
    pp: spreadIndex(tolerance, long, confidence),
    ppk: centredIndex(tolerance, long, confidence),
    normality,
    warnings: warningsOf(tests, normality),
  };
}
