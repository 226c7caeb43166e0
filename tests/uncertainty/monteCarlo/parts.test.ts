import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalCdf } from "../../../src/grading/normal.ts";
import { componentsOf, massCovariance } from "../../../src/uncertainty/components/components.ts";
import { COMPONENT_IDS, type Conditions } from "../../../src/uncertainty/conditions.ts";
import { chiSquareCdf } from "../../../src/uncertainty/distributions/quantiles.ts";
import { type Graded, massCount, massesOf, regraded } from "../../../src/uncertainty/graded.ts";
import { blockFigures, COVERAGE } from "../../../src/uncertainty/monteCarlo/blockFigures.ts";
import { chanceOf } from "../../../src/uncertainty/monteCarlo/chance.ts";
import { passingOf } from "../../../src/uncertainty/monteCarlo/drawCurve.ts";
import { drawMasses } from "../../../src/uncertainty/monteCarlo/drawMasses.ts";
import { numericalTolerance } from "../../../src/uncertainty/monteCarlo/numericalTolerance.ts";
import { smallest } from "../../../src/uncertainty/monteCarlo/smallest.ts";
import { standardDraw } from "../../../src/uncertainty/monteCarlo/standardDraw.ts";
import { expectNear } from "../../grading/near.ts";
import { choices, gradedOf, risingFractions } from "../../grading/stack.ts";
import { seeded } from "../simulation/chance.ts";
import { ALL_KNOWN, sand, testOf } from "../situations.ts";

const many = (draw: () => number, count = 40_000): number[] => Array.from({ length: count }, draw);
const meanOf = (drawn: readonly number[]): number => drawn.reduce((sum, x) => sum + x, 0) / drawn.length;
const shareBelow = (drawn: readonly number[], x: number): number => drawn.filter((y) => y < x).length / drawn.length;

describe("draws", () => {
  const chance = chanceOf(seeded(1));

  test("normal ones lie as a normal distribution does", () => {
    const drawn = many(chance.normal);
    for (const z of [-2, -1, 0, 0.5, 1.645, 2.5]) expectNear(shareBelow(drawn, z), normalCdf(z), 0, 0.008);
  });

  test.each([0.5, 1.5, 7.5, 60, 400])(
    "gamma ones of shape %s lie as half a chi-square of twice the degrees",
    (shape) => {
      const drawn = many(() => chance.gamma(shape));
      for (const at of [0.5, 0.8, 1, 1.2, 1.6]) {
        const x = shape * at;
        expectNear(shareBelow(drawn, x), chiSquareCdf(2 * x, 2 * shape), 0, 0.01);
      }
    },
  );

  test.each([
    ["normal", 0],
    ["rectangular", 0],
    ["one-sided", Math.sqrt(3) / 2],
  ] as const)("%s standard draws have mean square 1", (shape, mean) => {
    const drawn = many(standardDraw(shape, chance));
    expectNear(meanOf(drawn), mean, 0, 0.02);
    expectNear(meanOf(drawn.map((x) => x * x)), 1, 0.03);
    if (shape !== "normal") expect(Math.max(...drawn)).toBeLessThanOrEqual(Math.sqrt(3));
    if (shape === "one-sided") expect(Math.min(...drawn)).toBeGreaterThanOrEqual(0);
  });
});

/** Mean of the products of changes from what was found, mass by mass. */
function drawnProducts(graded: Graded, conditions: Conditions, draws: number): Float64Array {
  const count = massCount(graded);
  const [found, masses] = [massesOf(graded), new Float64Array(count)];
  const disturb = drawMasses(graded, componentsOf(graded, conditions), chanceOf(seeded(2)));
  const sums = new Float64Array(count * count);
  for (let n = 0; n < draws; n++) {
    disturb(masses);
    const off = masses.map((g, j) => g - found[j]!);
    for (const at of sums.keys()) sums[at]! += (off[Math.floor(at / count)]! * off[at % count]!) / draws;
  }
  return sums;
}

describe("drawn masses", () => {
  test.each([
    ["readability", "repeatability", "linearity"],
    ["drift"],
    ["loss"],
    ["grains"],
    ["sampling"],
    ["endPoint"],
  ] as const)("have the covariance of their causes: %s", (...only) => {
    const graded = testOf("2000:40 1000:90 500:120 pan:50", { chargeG: 303 });
    const off = COMPONENT_IDS.filter((id) => !(only as readonly string[]).includes(id));
    const conditions: Conditions = { ...ALL_KNOWN, off };
    const expected = massCovariance(componentsOf(graded, conditions), massCount(graded));
    const drawn = drawnProducts(graded, conditions, 20_000);
    const largest = Math.max(...expected);
    expect(largest).toBeGreaterThan(0);
    for (const [at, square] of expected.entries()) expectNear(drawn[at]!, square, 0.05, 0.03 * largest);
  });

  test("are never below 0", () => {
    const graded = testOf("2000:0 1000:0.02 500:1 pan:0.01", { chargeG: 1.1 });
    const masses = new Float64Array(massCount(graded));
    const disturb = drawMasses(graded, componentsOf(graded, ALL_KNOWN), chanceOf(seeded(3)));
    for (let n = 0; n < 2000; n++) {
      disturb(masses);
      expect(Math.min(...masses)).toBeGreaterThanOrEqual(0);
    }
  });
});

describe("the fast path of passing %", () => {
  const check = (graded: Parameters<typeof passingOf>[0]) => {
    const passing: number[] = [];
    const total = passingOf(graded, massesOf(graded), passing);
    const again = regraded(graded, massesOf(graded));
    if (!again.ok) throw new Error(again.reason);
    expectNear(total, again.value.totalG, 1e-9);
    const expected = again.value.rows.slice(0, -1).toReversed();
    for (const [k, row] of expected.entries()) expectNear(passing[k]!, row.passingPct, 1e-9, 1e-9);
    expect(passing).toHaveLength(expected.length);
  };

  test("is what the grading itself gives, whatever the stack", () =>
    fc.assert(
      fc.property(risingFractions, (fractions) => check({ grading: gradedOf(fractions), choices: choices() })),
    ));
  test("of the charge", () => check(sand({ chargeG: 306, basis: "charge" })));
  test("of the charge where the stack gained", () => check(sand({ chargeG: 297, basis: "charge" })));
  test("of a washed test", () => check(sand({ chargeG: 340, washedG: 301 })));
  test("of a washed test, of the charge", () => check(sand({ chargeG: 340, washedG: 301, basis: "charge" })));
});

describe("a block's figures", () => {
  const open = { low: null, high: null };

  test("its interval holds 95.45 % and leaves the same out on both sides", () => {
    const drawn = Float64Array.from({ length: 10_001 }, (_, i) => ((i * 7919) % 10_001) / 10_000);
    const { low, high, mean, lost } = blockFigures(drawn, 3, open);
    expectNear(low, (1 - COVERAGE) / 2, 0, 1e-3);
    expectNear(high, (1 + COVERAGE) / 2, 0, 1e-3);
    expectNear(mean, 0.5, 1e-9);
    expect(lost).toBe(3);
  });

  test("next to a bound the shortest interval begins at the bound", () => {
    const drawn = Float64Array.from({ length: 20_000 }, (_, i) => -Math.log(1 - (i + 0.5) / 20_000));
    const { low, high } = blockFigures(drawn, 0, { low: 0, high: null });
    expectNear(low, 0, 0, 1e-3);
    expectNear(high, -Math.log(1 - COVERAGE), 0.01);
  });

  const list = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 200 });

  test("the number at a place is that of the sorted list", () =>
    fc.assert(
      fc.property(list, fc.nat(), (numbers, n) => {
        const k = n % numbers.length;
        expect(smallest(Float64Array.from(numbers), k)).toBe(Float64Array.from(numbers).sort()[k]);
      }),
    ));
});

describe("the numerical tolerance", () => {
  test.each([
    [0.96, 1, 0.5],
    [0.94, 1, 0.05],
    [0.996, 2, 0.05],
    [1.23, 2, 0.05],
    [35, 1, 5],
    [35, 2, 0.5],
  ])("of u = %s with %s digits is %s", (u, digits, expected) =>
    expectNear(numericalTolerance(u, digits), expected, 1e-12),
  );

  test("is at most half and at least a twentieth of u with one digit", () =>
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (u) => {
        const ratio = numericalTolerance(u, 1) / u;
        expect(ratio).toBeLessThanOrEqual(0.53);
        expect(ratio).toBeGreaterThanOrEqual(0.05);
      }),
    ));
});
