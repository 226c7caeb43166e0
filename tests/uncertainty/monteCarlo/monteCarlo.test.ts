import { describe, expect, test } from "vitest";
import { toleranceByFormula } from "../../../src/series/tolerance.ts";
import { budgetOf } from "../../../src/uncertainty/budget.ts";
import type { Conditions } from "../../../src/uncertainty/conditions.ts";
import { localCurve } from "../../../src/uncertainty/localCurve.ts";
import type { Measurand } from "../../../src/uncertainty/measurand.ts";
import { compareWays } from "../../../src/uncertainty/monteCarlo/compareWays.ts";
import { type DrawingOptions, type Drawn, monteCarloOf } from "../../../src/uncertainty/monteCarlo/monteCarlo.ts";
import { expectNear } from "../../grading/near.ts";
import { seeded } from "../simulation/chance.ts";
import { ALL_KNOWN, askedSure, passingSure, SAND, sand, sureOf, testOf } from "../situations.ts";

type DrawnNumber = Drawn & { readonly determinable: true };

function drawnOf(found: Drawn | undefined): DrawnNumber {
  if (!found?.determinable) throw new Error(found?.reason ?? "not there");
  return found;
}

const some: DrawingOptions = { mostDraws: 40_000 };
const passing = (apertureUm: number): Measurand => ({ kind: "passingPct", apertureUm });
const draw = (conditions: Conditions, asked: readonly Measurand[], graded = sand({ chargeG: 301 }), options = some) =>
  monteCarloOf(graded, conditions, asked, seeded(7), options);

describe("where the model is linear and normal both ways agree", () => {
  const conditions: Conditions = { balance: { repeatabilityG: 0.3 }, off: ["loss"] };
  const asked: Measurand[] = [
    passing(1000),
    { kind: "coarserPct", apertureUm: 500 },
    { kind: "retainedPct", apertureUm: 500 },
    { kind: "retainedPct", apertureUm: 2000 },
    { kind: "percentileUm", passingPct: 60 },
    { kind: "value", id: "geometricMeanDiameterUm" },
  ];
  const budget = budgetOf(sand({ chargeG: 301 }), conditions, asked);
  const drawn = draw(conditions, asked, undefined, { mostDraws: 60_000 });

  test.each(asked.map((_, i) => i))("number %i of the list", (i) => {
    const [sure, found] = [sureOf(budget.asked[i]), drawnOf(drawn.results[i])];
    expect(found.name).toBe(sure.name);
    expectNear(found.u, sure.u, 0.015);
    expectNear(found.mean, sure.value, 0, 0.02 * sure.u);
    expectNear(found.interval.low, sure.interval.low, 0, 0.06 * sure.u);
    expectNear(found.interval.high, sure.interval.high, 0, 0.06 * sure.u);
  });

  test("and are compared by the numerical tolerance of u", () => {
    const comparison = compareWays(budget.asked[0]!, drawn.results[0]!)!;
    expect(comparison).toMatchObject({ agree: true, by: "first order", tolerance: 0.05 });
    expect(comparison.interval).toEqual(sureOf(budget.asked[0]).interval);
  });
});

describe("where it is not, the draws are right and that is said", () => {
  test("one rectangle: the interval is 95.45 % of it and not 2 / sqrt 3 of it", () => {
    const graded = testOf("2000:16 1000:34 500:34 pan:16");
    const conditions: Conditions = { apertures: {} };
    const [found] = draw(conditions, [passing(1000)], graded).results;
    const { passingPctAt, passingPct } = localCurve(graded, 1);
    const yUm = toleranceByFormula(1000)!.meanUm;
    const halfPct = passingPctAt(1000 + 0.9545 * yUm) - passingPct;
    const { interval } = drawnOf(found);
    expectNear((interval.high - interval.low) / 2, halfPct, 0.02);
    const sure = passingSure(budgetOf(graded, conditions, []), 1000);
    const comparison = compareWays(sure, found!, 2)!;
    expect(comparison).toMatchObject({ agree: false, by: "monte carlo" });
    expect(comparison.interval).toEqual(interval);
    expect(sure.U).toBeGreaterThan(1.15 * halfPct);
  });

  test("near 0 % nothing is drawn below 0, and the interval begins where the quantity does", () => {
    const graded = testOf("2000:0 1000:60 500:239.9 pan:0.1", { chargeG: 300.05 });
    const drawn = drawnOf(draw({ balance: { repeatabilityG: 0.1 } }, [passing(500)], graded).results[0]);
    expect(drawn.interval.low).toBeGreaterThanOrEqual(0);
    expect(drawn.interval.cut).toBe(true);
    expect(drawn.mean).toBeGreaterThan(0.03);
  });

  test("a few grains: what was found lies low in a skewed distribution", () => {
    const graded = testOf("4000:0 2800:0.25 2000:60 pan:40");
    const conditions: Conditions = { material: { particleDensityKgM3: 2650 } };
    const drawn = drawnOf(draw(conditions, [{ kind: "coarserPct", apertureUm: 2800 }], graded).results[0]);
    const [up, down] = [drawn.interval.high - 0.25, 0.25 - drawn.interval.low];
    expect(up).toBeGreaterThan(1.5 * down);
  });
});

describe("draws", () => {
  test("are the same from the same seed and others from another", () => {
    const run = (seed: number) => monteCarloOf(sand(), ALL_KNOWN, [passing(500)], seeded(seed), { mostDraws: 10_000 });
    expect(run(1)).toEqual(run(1));
    expect(run(1)).not.toEqual(run(2));
  });

  test("stop when all figures stand still", () => {
    const conditions: Conditions = { balance: { repeatabilityG: 0.3 }, off: ["loss"] };
    const coarse = monteCarloOf(sand(), conditions, [passing(500)], seeded(1), { mostDraws: 400_000 });
    expect(coarse).toMatchObject({ settled: true });
    expect(coarse.draws).toBeLessThan(400_000);
    expect(coarse.draws).toBeGreaterThanOrEqual(20_000);
  });

  test("stop at the most allowed, and then say that they are not settled", () => {
    const found = monteCarloOf(sand(), ALL_KNOWN, [passing(500)], seeded(1), { mostDraws: 10_000, digits: 2 });
    expect(found).toMatchObject({ draws: 10_000, settled: false });
    expect(found.results[0]).toMatchObject({ settled: false });
  });

  test("of a test without any uncertainty all say the same", () => {
    const found = draw({}, [passing(500)], sand());
    expect(drawnOf(found.results[0])).toMatchObject({ u: 0, settled: true });
    expect(found.draws).toBe(10_000);
  });

  test("in which a percentile falls off the stack are left out and counted", () => {
    const graded = testOf("2000:20 1000:69.9 pan:10.1");
    const [found] = draw(
      { balance: { repeatabilityG: 0.1 } },
      [{ kind: "percentileUm", passingPct: 10 }],
      graded,
    ).results;
    expect(found?.determinable).toBe(false);
    const [some10] = draw(
      { balance: { repeatabilityG: 0.1 } },
      [{ kind: "percentileUm", passingPct: 10 }],
      testOf("2000:20 1000:70.1 pan:9.9"),
    ).results;
    expect(drawnOf(some10).lostShare).toBeGreaterThan(0.05);
    expect(drawnOf(some10).lostShare).toBeLessThan(0.5);
  });

  test("without anything to draw there is nothing to do", () => {
    const found = draw(ALL_KNOWN, [{ kind: "percentileUm", passingPct: 0.01 }]);
    expect(found).toMatchObject({ draws: 0, settled: true });
    expect(found.results[0]).toMatchObject({ determinable: false });
    const budget = budgetOf(sand(), ALL_KNOWN, [{ kind: "percentileUm", passingPct: 0.01 }]);
    expect(compareWays(budget.asked[0]!, found.results[0]!)).toBeNull();
  });
});

describe("with everything included that has no side of its own", () => {
  const graded = sand({ chargeG: 301 });
  const bothSided: Conditions = { ...ALL_KNOWN, off: ["loss", "endPoint"] };
  const asked: Measurand[] = [2000, 1000, 500, 250].map(passing);
  const drawn = draw(bothSided, asked);
  const budget = budgetOf(graded, bothSided, []);

  test.each([
    [2000, 0],
    [1000, 1],
    [500, 2],
    [250, 3],
  ])("first order and draws are within a tenth of u of each other at %s um", (um, i) => {
    const [sure, found] = [passingSure(budget, um), drawnOf(drawn.results[i])];
    expectNear(found.u, sure.u, 0.1);
    expectNear(found.mean, sure.value, 0, 0.1 * sure.u);
  });

  test("what can only have been on one side moves the mean of the draws there, by half the remainder", () => {
    const on = passing(250);
    const [found] = draw({ endPoint: { remainderPct: 1 }, off: ["loss"] }, [on]).results;
    expectNear(drawnOf(found).mean, passingSure(budget, 250).value + 0.5, 0, 0.02);
  });

  test("every rule of interpolation can be drawn through", () => {
    for (const interpolation of ["linear", "log-probability", "monotone"] as const) {
      const other = testOf(SAND, { chargeG: 301 }, { interpolation });
      const on: Measurand = { kind: "percentileUm", passingPct: 50 };
      const found = drawnOf(monteCarloOf(other, ALL_KNOWN, [on], seeded(1), { mostDraws: 10_000 }).results[0]);
      expectNear(found.u, askedSure(budgetOf(other, ALL_KNOWN, [on]), "percentileUm@50").u, 0.12);
    }
  });

  test("a sieve that the stack lacks is read from each drawn curve", () => {
    const read = { ...graded, interpolateMissing: true };
    const on: Measurand = { kind: "passingPct", apertureUm: 600 };
    const found = drawnOf(monteCarloOf(read, ALL_KNOWN, [on], seeded(1), { mostDraws: 10_000 }).results[0]);
    expectNear(found.u, askedSure(budgetOf(read, ALL_KNOWN, [on]), "passingPct@600").u, 0.1);
  });
});
