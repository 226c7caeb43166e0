import { centredIndex, spreadIndex } from "../../../src/control/capability/indices.ts";
import { chartOf } from "../../../src/control/chartOf.ts";
import { chartConstants } from "../../../src/control/constants/chartConstants.ts";
import { limitsFrom } from "../../../src/control/limits/chartLimits.ts";
import { RUN_RULE_IDS, type RunRuleId } from "../../../src/control/rules/rules.ts";
import { runSignals } from "../../../src/control/rules/signals.ts";
import { hourly } from "../../control/hourly.ts";
import { numberOf } from "../../grading/stack.ts";
import miller from "../examples/l-capability-miller-freund.json" with { type: "json" };
import capability from "../examples/l-nist-capability.json" with { type: "json" };
import flow from "../examples/l-nist-individuals.json" with { type: "json" };
import shifted from "../examples/l-run-rules-montgomery.json" with { type: "json" };
import sharma from "../examples/l-xbar-r-sharma.json" with { type: "json" };
import { halfDigit, type PublishedCheck } from "../record.ts";

const seen = (source: string) => ({ source, status: "seen" }) as const;
const made = (source: string) => ({ source, status: "generated" }) as const;
const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

const D2_ROUNDED = "The handbook divides by d2 = 1.128; with d2 = 1.128379 the limits are a little nearer.";

function flowChecks(): PublishedCheck[] {
  const { inputs, expected, recomputed, source } = flow;
  const chart = chartOf(hourly(inputs.values));
  const spreads = chart.points.flatMap(({ spread }) => spread ?? []);
  const limit = (value: string, published: number, ours: number, exact: number): PublishedCheck => ({
    ...seen(source),
    value,
    published,
    ours,
    tolerance: 0.5e-4,
    disagreement: { recomputed: exact, tolerance: halfDigit(exact), why: D2_ROUNDED },
  });
  return [
    { ...seen(source), value: "centre", published: expected.mean, ours: numberOf(chart.centre), tolerance: 0.005 },
    {
      ...seen(source),
      value: "mean moving range",
      published: expected.mean_moving_range,
      ours: meanOf(spreads),
      tolerance: 0.5e-4,
    },
    limit("upper limit", expected.UCL, numberOf(chart.upper), recomputed.UCL_exact_d2),
    limit("lower limit", expected.LCL, numberOf(chart.lower), recomputed.LCL_exact_d2),
  ];
}

function subgroupChecks(): PublishedCheck[] {
  const { inputs, expected, source } = sharma;
  const centre = meanOf(inputs.subgroup_mean_cm);
  const sigma = meanOf(inputs.range_cm) / chartConstants(5).d2 / Math.sqrt(5);
  const limits = limitsFrom("mean-and-range", 5, { centre, sigma });
  const told = seen(source);
  return [
    { ...told, value: "upper limit of means in cm", published: expected.UCL, ours: limits.upper, tolerance: 0.05 },
    { ...told, value: "lower limit of means in cm", published: expected.LCL, ours: limits.lower, tolerance: 0.05 },
    {
      ...told,
      value: "upper limit of ranges in cm",
      published: expected.R_UCL,
      ours: limits.spread.upper,
      tolerance: 0.5e-3,
    },
    {
      ...told,
      value: "lower limit of ranges in cm",
      published: expected.R_LCL,
      ours: limits.spread.lower,
      tolerance: 0,
    },
  ];
}

/** Names of the example's rules, in the order of `RUN_RULE_IDS`. */
const EXAMPLE_RULES: Readonly<Record<RunRuleId, keyof typeof shifted.recomputed.hits_1_based_last_point>> = {
  "1-beyond-3-sigma": "beyond_3_sigma",
  "2-of-3-beyond-2-sigma": "two_of_three_beyond_2_sigma",
  "4-of-5-beyond-1-sigma": "four_of_five_beyond_1_sigma",
  "8-on-one-side": "eight_same_side",
  "9-on-one-side": "nine_same_side",
  "6-rising-or-falling": "six_trend",
  "14-up-and-down": "fourteen_alternating",
  "15-within-1-sigma": "fifteen_within_1_sigma",
  "8-outside-1-sigma": "eight_outside_1_sigma",
};

function ruleChecks(): PublishedCheck[] {
  const { inputs, recomputed } = shifted;
  const signals = runSignals(inputs.values, { centre: inputs.center, sigma: inputs.sigma }, RUN_RULE_IDS);
  const told = made("observations of D. C. Montgomery, Introduction to Statistical Quality Control, chapter 9");
  return RUN_RULE_IDS.map((rule) => ({
    ...told,
    value: `first place where "${rule}" ends, 0 for nowhere`,
    published: recomputed.hits_1_based_last_point[EXAMPLE_RULES[rule]][0] ?? 0,
    ours: 1 + (signals.find((signal) => signal.rule === rule)?.index ?? -1),
    tolerance: 0,
  }));
}

function capabilityChecks(): PublishedCheck[] {
  const index = (min: number | null, max: number | null, mean: number, sigma: number) => ({
    spread: numberOf(spreadIndex({ min, max }, { mean, sigma, tests: 50, freedom: 49 }, 0.95)),
    centred: numberOf(centredIndex({ min, max }, { mean, sigma, tests: 50, freedom: 49 }, 0.95)),
  });
  const { USL, LSL, mean, s } = capability.inputs;
  const { expected } = capability;
  const told = { ...seen(capability.source), tolerance: 0.5e-4 };
  const one = (max: number | null, min: number | null) =>
    numberOf(centredIndex({ min, max }, { mean, sigma: s, tests: 50, freedom: 49 }, 0.95));
  const steel = miller.inputs;
  const bolt = index(steel.LSL_mm, steel.USL_mm, steel.mean_mm, steel.s_mm);
  const again = (value: string, published: number, ours: number) => ({
    ...made(miller.source),
    value,
    published,
    ours,
    tolerance: halfDigit(published),
  });
  return [
    { ...told, value: "Cp", published: expected.Cp, ours: index(LSL, USL, mean, s).spread },
    { ...told, value: "Cpk", published: expected.Cpk, ours: index(LSL, USL, mean, s).centred },
    { ...told, value: "Cpk with an upper limit only", published: expected.Cpu, ours: one(USL, null) },
    { ...told, value: "Cpk with a lower limit only", published: expected.Cpl, ours: one(null, LSL) },
    again("Cp", miller.recomputed.Cp, bolt.spread),
    again("Cpk", miller.recomputed.Cpk, bolt.centred),
  ];
}

export const checks: PublishedCheck[] = [...flowChecks(), ...subgroupChecks(), ...ruleChecks(), ...capabilityChecks()];
