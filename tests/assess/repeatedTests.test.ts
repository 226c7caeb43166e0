import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { type RepeatedTest, repeatedTests } from "../../src/assess/repeatedTests.ts";
import { figureBetween, stationsTogether } from "../../src/assess/stationsTogether.ts";
import { repeatablePart } from "../../src/uncertainty/replicates/replicates.ts";
import { expectNear } from "../grading/near.ts";
import { entryWith } from "../screens/deckStreams.ts";

const NETS = [10, 50, 90, 80, 50, 20];
/** A recorded test, with so much moved from the 500 um sieve to the 710 um sieve. */
function repeat(number: number, movedG: number, change: Partial<RepeatedTest> = {}): RepeatedTest {
  const nets = NETS.map((g, i) => (i === 2 ? g + movedG : i === 3 ? g - movedG : g));
  const { test: record } = entryWith(number, "R-1", nets);
  return { ...record, number, at: `2026-11-24T0${number % 10}:00:00+01:00`, voided: false, waived: false, ...change };
}
const THREE = [repeat(1, 0), repeat(2, 3), repeat(3, -3)];

function figure(told: ReturnType<typeof repeatedTests>, on: string) {
  const found = told.figures.find((one) => one.on === on);
  return found?.determinable ? found : expect.fail(found?.reason ?? "no such figure");
}

describe("repeated tests", () => {
  test("have mean, s_r and r of every figure, by hand at 710 um", () => {
    const told = repeatedTests(THREE);
    // Of 300 g 150 g pass 710 um, and 3 g more or less: 50, 49 and 51 %.
    const at710 = figure(told, "passingPct@710");
    for (const [i, value] of at710.values.entries()) expectNear(value, [50, 49, 51][i] ?? 0, 1e-9);
    expectNear(at710.found.mean, 50, 1e-9);
    expectNear(at710.found.sr!, 1, 1e-9);
    expectNear(at710.found.r!, 2.8, 1e-9);
    expect(told.figures.map(({ on }) => on)).toEqual([
      ...["passingPct@1400", "passingPct@1000", "passingPct@710", "passingPct@500", "passingPct@355"],
      "percentileUm@50",
    ]);
  });

  test("leave out one whose curve is drawn over other apertures, and say so", () => {
    const [first] = THREE;
    const product = { ...first!.product, method: { ...first!.product.method, apertures: "certified" as const } };
    const told = repeatedTests([...THREE, repeat(4, 0, { product })]);
    expect(told.leftOut).toEqual([
      { number: 4, reason: "its curve is drawn over certified apertures, that of no. 1 over nominal ones" },
    ]);
    expect(told.tests).toHaveLength(3);
  });

  test("are held against what can differ between repeats by the budgets of the assessments", () => {
    const parts = THREE.map((record) => {
      const assessed = assessTest(record);
      const sure = assessed.ok
        ? assessed.value.howSure.budget.passing.find(({ name }) => name === "passingPct@710")
        : undefined;
      return sure?.determinable ? repeatablePart(sure) : expect.fail("no budget");
    });
    const { honesty } = figure(repeatedTests(THREE), "passingPct@710").found;
    expectNear(honesty!.u, Math.hypot(...parts) / Math.sqrt(3), 1e-12);
    expect(honesty!.verdict).toBe("scatters more than stated");
  });

  test("what is void, invalid, of another product or on other sieves is left out with the reason", () => {
    const signed = { ...THREE[0]!.signed, test: "invalid" as const };
    const other = repeat(4, 0, { product: { ...THREE[0]!.product, code: "TH-X" } });
    const fewer = repeat(5, 0);
    const told = repeatedTests([
      ...THREE,
      other,
      { ...fewer, weighings: fewer.weighings.filter(({ apertureUm }) => apertureUm !== 500) },
      repeat(6, 0, { voided: true }),
      repeat(7, 0, { signed }),
      repeat(8, 0, { signed, waived: true }),
    ]);
    expect(told.tests.map(({ number }) => number)).toEqual([1, 2, 3, 8]);
    expect(told.leftOut).toEqual([
      { number: 4, reason: "it is of TH-X, not of TH-0510" },
      { number: 5, reason: "it was sieved on other sieves" },
      { number: 6, reason: "it is void" },
      { number: 7, reason: "the test is invalid" },
    ]);
  });

  test("a figure that one test lacks is not compared, and names the test", () => {
    const coarse = repeat(2, 0);
    const nets = [290, 0, 0, 0, 0, 10];
    const weighings = coarse.weighings.map((w, i) => ({ ...w, fullG: (w.emptyG ?? 0) + (nets[i] ?? 0) }));
    const told = repeatedTests([repeat(1, 0), { ...coarse, weighings }]);
    expect(told.figures.find(({ on }) => on === "percentileUm@50")).toMatchObject({
      determinable: false,
      reason: expect.stringMatching(/^no\. 2: /),
    });
  });

  test("of no test there is nothing", () =>
    expect(repeatedTests([])).toEqual({ tests: [], leftOut: [], figures: [], stated: [], sharingEmpties: [] }));
});

describe("several stations", () => {
  test("are compared figure by figure", () => {
    const told = (tests: RepeatedTest[]) => repeatedTests(tests);
    const figures = stationsTogether([
      { station: "A", told: told([repeat(1, 0), repeat(2, 3)]) },
      { station: "B", told: told([repeat(3, 6), repeat(4, 9)]) },
    ]);
    const found = figures.find(({ on }) => on === "passingPct@710");
    if (!found?.determinable) expect.fail("not compared");
    // Means 49.5 and 47.5 %, both with s = 1/sqrt 2.
    expectNear(found.found.sr, Math.SQRT1_2, 1e-9);
    expectNear(found.found.sL ** 2, (4 - 0.5) / 2, 1e-9);
  });

  test("one that lacks a figure, or too few results, is a reason", () => {
    const none = { station: "B", told: repeatedTests([]) };
    const [first] = stationsTogether([{ station: "A", told: repeatedTests(THREE) }, none]);
    expect(first).toMatchObject({ determinable: false, reason: "B: it has no such figure" });
    expect(figureBetween({ on: "value", unit: "1", groups: [{ station: "A", results: [1, 2] }] })).toMatchObject({
      determinable: false,
      reason: "results of at least two stations are needed",
    });
  });
});
