import { centredIndex, spreadIndex } from "../../../src/control/capability/indices.ts";
import { chartOf } from "../../../src/control/chartOf.ts";
import { type ChartConstants, chartConstants } from "../../../src/control/constants/chartConstants.ts";
import { limitsFrom } from "../../../src/control/limits/chartLimits.ts";
import { cusumOf } from "../../../src/control/memory/cusum.ts";
import { ewmaOf } from "../../../src/control/memory/ewma.ts";
import { RUN_RULE_IDS, type RunRuleId } from "../../../src/control/rules/rules.ts";
import { runSignals } from "../../../src/control/rules/signals.ts";
import { hourly } from "../../control/hourly.ts";
import { numberOf } from "../../grading/stack.ts";
import miller from "../examples/l-capability-miller-freund.json" with { type: "json" };
import constants from "../examples/l-constants.json" with { type: "json" };
import table from "../examples/l-constants-table.json" with { type: "json" };
import montgomery from "../examples/l-montgomery-ewma-cusum.json" with { type: "json" };
import capability from "../examples/l-nist-capability.json" with { type: "json" };
import cusum from "../examples/l-nist-cusum.json" with { type: "json" };
import cusumTable from "../examples/l-nist-cusum-table.json" with { type: "json" };
import ewma from "../examples/l-nist-ewma.json" with { type: "json" };
import flow from "../examples/l-nist-individuals.json" with { type: "json" };
import shifted from "../examples/l-run-rules-montgomery.json" with { type: "json" };
import sharma from "../examples/l-xbar-r-sharma.json" with { type: "json" };
import { furthestOff, halfDigit, type PublishedCheck } from "../record.ts";
import integrated from "../reference/fixtures/control.json" with { type: "json" };

const seen = (source: string) => ({ source, status: "seen" }) as const;
const memory = (source: string) => ({ source, status: "memory" }) as const;
const made = (source: string) => ({ source, status: "generated" }) as const;
const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

type Letter = keyof ChartConstants;

const LAST_DIGIT =
  "Off in its last digit: d2 and d3, integrated twice, give another. Old tables were reckoned from rounded d2 and d3.";

/** Figures of the table that are not what d2 and d3 give. */
const OFF: Readonly<Partial<Record<Letter, readonly number[]>>> = { d3: [19], D3: [19, 22, 24], D4: [3, 18, 19, 22] };

function integratedAt(letter: Letter, n: number): number {
  const { d2, d3 } = integrated.rangeMoments.find((one) => one.n === n) ?? { d2: Number.NaN, d3: Number.NaN };
  return letter === "d3" ? d3 : 1 + ((letter === "D3" ? -3 : 3) * d3) / d2;
}

function columnChecks(letter: Letter, figures: readonly number[]): PublishedCheck[] {
  const tolerance = letter === "c4" ? 0.5e-4 : 0.5e-3;
  const rows = table.inputs.n.map((n, i) => ({
    n,
    figure: figures[i] ?? Number.NaN,
    ours: chartConstants(n)[letter],
    off: OFF[letter]?.includes(n) ?? false,
  }));
  const agreeing = rows.filter(({ off }) => !off);
  const told = memory(table.source);
  return [
    furthestOff({
      ...told,
      value: `${letter} for samples of 2 to 25`,
      published: agreeing.map(({ figure }) => figure),
      ours: agreeing.map(({ ours }) => ours),
      tolerance,
    }),
    ...rows
      .filter(({ off }) => off)
      .map(({ n, figure, ours }) => ({
        ...told,
        value: `${letter} for samples of ${n}`,
        published: figure,
        ours,
        tolerance,
        disagreement: { recomputed: integratedAt(letter, n), tolerance: 1e-6, why: LAST_DIGIT },
      })),
  ];
}

function computedConstants(): PublishedCheck[] {
  const { recomputed, expected, source } = constants;
  const sizes = Object.entries(recomputed.constants);
  const letters = ["d2", "d3", "c4", "A2", "D3", "D4", "A3", "B3", "B4"] as const;
  return [
    ...letters.map((letter) =>
      furthestOff({
        ...made("integrated from the range distribution and the gamma function"),
        value: `${letter} for samples of 2, 3, 4, 5, 7, 10`,
        published: sizes.map(([, row]) => row[letter]),
        ours: sizes.map(([n]) => chartConstants(Number(n))[letter]),
        tolerance: 1e-6,
      }),
    ),
    {
      ...seen(source),
      value: "D4 for samples of 5",
      published: expected.D4_n5_nist,
      ours: chartConstants(5).D4,
      tolerance: 0.0005,
      disagreement: {
        recomputed: recomputed.constants["5"].D4,
        tolerance: 1e-6,
        why: "D4 for samples of 5 is 2.11450 to five decimals but 2.114499 to six: 2.115 was rounded twice.",
      },
    },
  ];
}

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

const firstPlace = (points: readonly { readonly side: unknown }[]) => 1 + points.findIndex(({ side }) => side !== null);

function ewmaChecks(): PublishedCheck[] {
  const { inputs, expected, recomputed, source } = ewma;
  const points = ewmaOf(
    inputs.values,
    { centre: inputs.target, sigma: inputs.sigma },
    { lambda: inputs.lambda, widthSigmas: inputs.width_sigmas, limits: "steady" },
  );
  const last = points.at(-1);
  const told = memory(source);
  return [
    furthestOff({
      ...told,
      value: "EWMA",
      published: expected.ewma,
      ours: points.map((point) => point.ewma),
      tolerance: 0.005,
    }),
    {
      ...told,
      value: "EWMA, upper limit",
      published: expected.UCL,
      ours: last?.upper ?? Number.NaN,
      tolerance: 0.5e-4,
    },
    {
      ...told,
      value: "EWMA, lower limit",
      published: expected.LCL,
      ours: last?.lower ?? Number.NaN,
      tolerance: 0.5e-4,
      disagreement: {
        recomputed: recomputed.LCL,
        tolerance: 1e-6,
        why: "The handbook rounds the square root of lambda/(2 - lambda) to 0.4201; the limit is 47.41157.",
      },
    },
  ];
}

function cusumChecks(): PublishedCheck[] {
  const { inputs, recomputed, source } = cusum;
  const points = cusumOf(
    inputs.values,
    { centre: inputs.target, sigma: 1 },
    { slackSigmas: inputs.k, limitSigmas: inputs.h },
  );
  const column = { ...made(`data of ${source}, from memory`), tolerance: 1e-9 };
  return [
    furthestOff({
      ...memory(source),
      value: "cumulative sum above, values 13 to 20",
      published: cusumTable.expected.S_hi,
      ours: points.slice(cusumTable.inputs.first - 1).map(({ above }) => above),
      tolerance: 0.005 + 1e-9,
    }),
    {
      ...memory(source),
      value: "cumulative sum: first signal",
      published: cusumTable.expected.first_signal,
      ours: firstPlace(points),
      tolerance: 0,
    },
    furthestOff({
      ...column,
      value: "cumulative sum above",
      published: recomputed.S_hi,
      ours: points.map(({ above }) => above),
    }),
    furthestOff({
      ...column,
      value: "cumulative sum below",
      published: recomputed.S_lo,
      ours: points.map(({ below }) => below),
    }),
  ];
}

const NOT_28 =
  "Recalled as 28; by the book's own observations the 28th average is 10.573, inside its limit of 10.619, the 29th outside.";

function montgomeryChecks(): PublishedCheck[] {
  const { inputs, expected, recomputed, source } = montgomery;
  const { values } = shifted.inputs;
  const process = { centre: inputs.target, sigma: inputs.sigma };
  const averages = (limits: "start-up" | "steady") =>
    ewmaOf(values, process, { lambda: inputs.lambda, widthSigmas: inputs.width_sigmas, limits });
  const sums = cusumOf(values, process, { slackSigmas: inputs.k, limitSigmas: inputs.h });
  const at29 = sums[28] ?? { above: Number.NaN, since: null };
  const [start, steady] = [averages("start-up"), averages("steady").at(-1)];
  const told = memory(source);
  const column = (value: string, published: number[], ours: readonly number[], tolerance: number) =>
    furthestOff({ ...told, value, published, ours, tolerance });
  return [
    column(
      "EWMA, first two",
      expected.ewma,
      start.slice(0, 2).map((point) => point.ewma),
      1e-9,
    ),
    column(
      "EWMA, start-up limits above",
      expected.ewma_upper,
      start.slice(0, 2).map(({ upper }) => upper),
      0.005,
    ),
    column(
      "EWMA, start-up limits below",
      expected.ewma_lower,
      start.slice(0, 2).map(({ lower }) => lower),
      0.005,
    ),
    column("EWMA, steady limits", expected.steady, [steady?.lower ?? Number.NaN, steady?.upper ?? Number.NaN], 0.005),
    {
      ...told,
      value: "EWMA: first signal",
      published: expected.ewma_first_signal,
      ours: firstPlace(start),
      tolerance: 0,
      disagreement: { recomputed: recomputed.ewma_first_signal, tolerance: 0, why: NOT_28 },
    },
    {
      ...told,
      value: "cumulative sum above at 29",
      published: expected.cusum_up_at_29,
      ours: at29.above,
      tolerance: 0.005,
    },
    {
      ...told,
      value: "cumulative sum: first signal",
      published: expected.cusum_first_signal,
      ours: firstPlace(sums),
      tolerance: 0,
    },
    {
      ...told,
      value: "cumulative sum: values since it began, at 29",
      published: expected.cusum_counts_at_29,
      ours: 29 - (at29.since ?? Number.NaN),
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

export const checks: PublishedCheck[] = [
  ...computedConstants(),
  ...(Object.entries(table.expected) as [Letter, number[]][]).flatMap(([letter, figures]) =>
    columnChecks(letter, figures),
  ),
  ...flowChecks(),
  ...subgroupChecks(),
  ...ewmaChecks(),
  ...cusumChecks(),
  ...montgomeryChecks(),
  ...ruleChecks(),
  ...capabilityChecks(),
];
