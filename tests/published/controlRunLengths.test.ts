import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { describe, expect, test } from "vitest";
import { cusumOf } from "../../src/control/memory/cusum.ts";
import { ewmaOf } from "../../src/control/memory/ewma.ts";
import { type RunRuleId, WESTERN_ELECTRIC_RULES } from "../../src/control/rules/rules.ts";
import { runSignals } from "../../src/control/rules/signals.ts";
import { normalCdf, normalQuantile } from "../../src/grading/normal.ts";
import lengths from "./examples/l-run-lengths.json" with { type: "json" };

const STANDARD = { centre: 0, sigma: 1 };
const RUNS = 2000;
const CHUNK = 64;
/** Simulation errors by which a figure may be off: once in 15,000 rightly found ones. */
const ERRORS = 4;

type Alarm = (values: readonly number[]) => number;
type Table = (typeof lengths.tables)[number];

const ofRules =
  (rules: readonly RunRuleId[]): Alarm =>
  (values) =>
    runSignals(values, STANDARD, rules)[0]?.index ?? -1;

const firstSided = (points: readonly { readonly side: unknown }[]) => points.findIndex(({ side }) => side !== null);

function alarmOf({ chart, lambda, widthSigmas, slackSigmas, limitSigmas }: Table): Alarm {
  if (chart === "shewhart") return ofRules(["1-beyond-3-sigma"]);
  if (chart === "western-electric") return ofRules(WESTERN_ELECTRIC_RULES);
  if (lambda !== undefined && widthSigmas !== undefined)
    return (values) => firstSided(ewmaOf(values, STANDARD, { lambda, widthSigmas, limits: "steady" }));
  if (slackSigmas !== undefined && limitSigmas !== undefined)
    return (values) => firstSided(cusumOf(values, STANDARD, { slackSigmas, limitSigmas }));
  throw new Error(`no chart is called ${chart}`);
}

/** Values until the first alarm, the alarming one included; the run is drawn longer until there is one. */
function runLength(alarm: Alarm, next: () => number): number {
  const values: number[] = [];
  for (let size = CHUNK; ; size *= 4) {
    while (values.length < size) values.push(next());
    const at = alarm(values);
    if (at >= 0) return at + 1;
  }
}

/** Mean run length of so many runs after a shift in sigma, with its standard error. */
function simulated(alarm: Alarm, shift: number, seed: number, runs = RUNS) {
  const random = xoroshiro128plus(seed);
  const next = () => shift + normalQuantile(Math.max(uniformFloat64(random), Number.EPSILON));
  const found = Array.from({ length: runs }, () => runLength(alarm, next));
  const mean = found.reduce((sum, length) => sum + length, 0) / runs;
  const variance = found.reduce((sum, length) => sum + (length - mean) ** 2, 0) / (runs - 1);
  return { mean, error: Math.sqrt(variance / runs) };
}

/** Half a step of the last digit of a figure. */
const printed = (arl: number): number => 0.5 * 10 ** -(String(arl).split(".")[1]?.length ?? 0);

const named = (table: Table): string =>
  [table.chart, table.lambda, table.widthSigmas, table.slackSigmas, table.limitSigmas]
    .filter((part) => part !== undefined)
    .join(" ");

describe.each(lengths.tables.map((table) => ({ name: named(table), table })))(
  "average run length, $name: $table.source (memory)",
  ({ table }) => {
    test.each(table.shift.map((shift, i) => ({ shift, arl: table.arl[i] ?? Number.NaN })))(
      "a shift of $shift sigma is seen after $arl tests on average",
      ({ shift, arl }) => {
        const { mean, error } = simulated(alarmOf(table), shift, 1000 + Math.round(100 * shift));
        expect(error).toBeLessThan(0.05 * arl);
        expect(Math.abs(mean - arl)).toBeLessThanOrEqual(ERRORS * error + printed(arl));
      },
    );
  },
);

test("the Shewhart table is 1/p of the normal distribution", () => {
  const table = lengths.tables.find(({ chart }) => chart === "shewhart");
  for (const [i, shift] of (table?.shift ?? []).entries()) {
    const p = normalCdf(-3 + shift) + normalCdf(-3 - shift);
    expect(Math.abs(1 / p - (table?.arl[i] ?? Number.NaN))).toBeLessThan(0.0051);
  }
});

test("a chart with other limits would be told from the table", () => {
  const wide: Alarm = (values) =>
    firstSided(ewmaOf(values, STANDARD, { lambda: 0.2, widthSigmas: 3.3, limits: "steady" }));
  const { mean, error } = simulated(wide, 0.5, 7);
  expect(mean - 41.8).toBeGreaterThan(ERRORS * error + 0.05);
});

test("exact start-up limits see a large shift sooner than steady ones", () => {
  const choice = { lambda: 0.1, widthSigmas: 2.814 } as const;
  const [early, late] = (["start-up", "steady"] as const).map((limits) =>
    simulated((values) => firstSided(ewmaOf(values, STANDARD, { ...choice, limits })), 2, 11),
  );
  expect((early?.mean ?? Number.NaN) + 4 * (early?.error ?? 0)).toBeLessThan(late?.mean ?? Number.NaN);
});
