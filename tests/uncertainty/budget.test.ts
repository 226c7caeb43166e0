import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { budgetOf, EVERYTHING, type Sureness } from "../../src/uncertainty/budget.ts";
import type { Conditions } from "../../src/uncertainty/conditions.ts";
import { chanceBetween, coverageInterval } from "../../src/uncertainty/interval.ts";
import { boundsOf } from "../../src/uncertainty/measurand.ts";
import { expectNear } from "../grading/near.ts";
import { choices, gradedOf, risingFractions } from "../grading/stack.ts";
import { ALL_KNOWN, askedSure, partOf, passingSure, sand, testOf, uPart } from "./situations.ts";

describe("a ratio of masses, exactly", () => {
  const s = 0.05;
  const conditions: Conditions = { balance: { repeatabilityG: s } };

  test("passing %: u^2(Q) = [(1 - Q)^2 sum of finer u^2 + Q^2 sum of coarser u^2] / M^2, whatever the stack", () =>
    fc.assert(
      fc.property(risingFractions, (fractions) => {
        const grading = gradedOf(fractions);
        const budget = budgetOf({ grading, choices: choices() }, conditions, []);
        const square = 2 * s * s;
        for (const [i, sure] of budget.passing.entries()) {
          const q = grading.rows[i]!.passingPct / 100;
          const [coarser, finer] = [i + 1, grading.rows.length - i - 1];
          const expected = (100 * Math.sqrt(((1 - q) ** 2 * finer + q ** 2 * coarser) * square)) / grading.totalG;
          expectNear(sure.determinable ? sure.u : -1, expected, 1e-9);
        }
      }),
    ));

  test("of the charge: u^2 = (u_coarser / B)^2 + (coarser u(B) / B^2)^2", () => {
    const graded = testOf("1000:40 500:30 pan:29", { chargeG: 100, basis: "charge" });
    const u = uPart(passingSure(budgetOf(graded, conditions, []), 500), "repeatability");
    const net = Math.SQRT2 * s;
    expectNear(u, 100 * Math.hypot((Math.SQRT2 * net) / 100, (70 * net) / 100 ** 2), 1e-12);
  });

  test("of a washed test: what was washed out hangs on both dry masses", () => {
    const graded = testOf("1000:40 500:30 pan:10", { chargeG: 100, washedG: 80 });
    const u = uPart(passingSure(budgetOf(graded, { ...conditions, off: ["loss"] }, []), 500), "repeatability");
    const [q, net] = [0.3, Math.SQRT2 * s];
    const square = 2 * (q * net) ** 2 + ((1 - q) * net) ** 2 + 2 * ((1 - q) * net) ** 2;
    expectNear(u, Math.sqrt(square), 1e-9);
  });
});

describe("a budget", () => {
  const budget = budgetOf(sand({ chargeG: 301 }), ALL_KNOWN);

  test("tells of every sieve and of all usual values", () => {
    expect(budget.passing.map((sure) => sure.name)).toEqual(
      [2000, 1400, 1000, 710, 500, 355, 250, 125].map((um) => `passingPct@${um}`),
    );
    expect(budget.asked).toHaveLength(EVERYTHING.length);
    expect(budget.grains).toHaveLength(9);
  });

  test("adds up: u^2 is the sum of its components' squares, U is 2 u", () => {
    for (const sure of [...budget.passing, ...budget.asked]) {
      if (!sure.determinable) continue;
      const squares = sure.components.reduce((sum, part) => sum + (part.included ? part.u ** 2 : 0), 0);
      expectNear(sure.u, Math.sqrt(squares), 1e-12);
      expect(sure.U).toBe(2 * sure.u);
      expect(sure.k).toBe(2);
    }
  });

  test("keeps its form through JSON", () => expect(JSON.parse(JSON.stringify(budget))).toEqual(budget));

  test("says why a value has none", () => {
    const modulus = budget.asked.find((sure) => sure.name === "finenessModulus");
    expect(modulus).toMatchObject({ determinable: false, reason: expect.stringMatching(/150 um/) });
  });

  test("gives every determined value an uncertainty above 0", () => {
    const determined = budget.asked.filter((sure): sure is Sureness & { determinable: true } => sure.determinable);
    expect(determined.length).toBeGreaterThan(20);
    for (const sure of determined) expect(sure.u).toBeGreaterThan(0);
  });

  test("of conditions about which nothing is known says so nine times and has no uncertainty", () => {
    const bare = budgetOf(sand(), {}, []);
    expect(bare.components.map((c) => c.included)).toEqual(new Array(9).fill(false));
    expect(bare.passing.every((sure) => sure.determinable && sure.u === 0)).toBe(true);
    expect(bare.grains).toBeNull();
  });

  test("a component that is switched off changes nothing but itself", () => {
    const without = budgetOf(sand({ chargeG: 301 }), { ...ALL_KNOWN, off: ["grains"] }, []);
    for (const um of [2000, 500, 125]) {
      const [all, some] = [passingSure(budget, um), passingSure(without, um)];
      expectNear(some.u, Math.sqrt(all.u ** 2 - uPart(all, "grains") ** 2), 1e-9);
      expect(partOf(some, "grains")).toMatchObject({ included: false, reason: "switched off by the product" });
      expect(uPart(some, "apertures")).toBe(uPart(all, "apertures"));
    }
  });

  test("values that stand for each other have the same relative uncertainty", () => {
    const [d50, sgn] = [askedSure(budget, "percentileUm@50"), askedSure(budget, "sizeGuideNumber")];
    expectNear(d50.u / d50.value, sgn.u / sgn.value, 1e-9);
    const [d10, es] = [askedSure(budget, "percentileUm@10"), askedSure(budget, "effectiveSizeUm")];
    expectNear(d10.u, es.u, 1e-12);
  });

  test("heavier charges of the same curve are surer wherever balance or grains count", () => {
    const heavy = testOf("2000:30 1400:90 1000:310 710:580 500:820 355:630 250:340 125:160 pan:40");
    const conditions: Conditions = { balance: ALL_KNOWN.balance!, material: ALL_KNOWN.material! };
    const [light, heavier] = [budgetOf(sand(), conditions, []), budgetOf(heavy, conditions, [])];
    for (const um of [2000, 710, 125]) {
      expectNear(
        uPart(passingSure(light, um), "repeatability") / uPart(passingSure(heavier, um), "repeatability"),
        10,
        1e-9,
      );
      expectNear(
        uPart(passingSure(light, um), "grains") / uPart(passingSure(heavier, um), "grains"),
        Math.sqrt(10),
        0.05,
      );
    }
  });
});

describe("the interval", () => {
  const percent = boundsOf("%");

  test("is y +- 2 u, cut at 0 and 100 %", () => {
    expect(coverageInterval(50, 2, percent)).toEqual({ low: 46, high: 54, cut: false });
    expect(coverageInterval(0.1, 0.2, percent)).toEqual({ low: 0, high: 0.5, cut: true });
    expect(coverageInterval(100, 0.2, percent)).toEqual({ low: 99.6, high: 100, cut: true });
  });

  test("of a size ends at 0, of a skewness nowhere", () => {
    expect(coverageInterval(1, 2, boundsOf("um")).low).toBe(0);
    expect(coverageInterval(0, 2, boundsOf("1"))).toEqual({ low: -4, high: 4, cut: false });
    expect(boundsOf("phi")).toEqual({ low: null, high: null });
  });

  const y = fc.double({ min: 0, max: 100, noNaN: true });
  const u = fc.double({ min: 0.001, max: 30, noNaN: true });

  test("holds at least 95.45 % of the cut normal distribution, wherever it is cut", () =>
    fc.assert(
      fc.property(y, u, (value, sd) => {
        const { low, high } = coverageInterval(value, sd, percent);
        expect(chanceBetween(value, sd, low, high, percent)).toBeGreaterThan(0.9544);
        expect(low).toBeGreaterThanOrEqual(0);
        expect(high).toBeLessThanOrEqual(100);
      }),
    ));

  test("no interval of any passing % leaves 0 to 100 %", () =>
    fc.assert(
      fc.property(risingFractions, (fractions) => {
        const budget = budgetOf(
          { grading: gradedOf(fractions), choices: choices() },
          { ...ALL_KNOWN, off: ["apertures"] },
          [],
        );
        for (const sure of budget.passing) {
          if (!sure.determinable) continue;
          expect(sure.interval.low).toBeGreaterThanOrEqual(0);
          expect(sure.interval.high).toBeLessThanOrEqual(100);
        }
      }),
      { numRuns: 30 },
    ));

  test("chances of a cut distribution add to 1 and know nothing beyond the cut", () => {
    const below = chanceBetween(1, 2, null, 3, percent);
    const above = chanceBetween(1, 2, 3, null, percent);
    expectNear(below + above, 1, 1e-12);
    expect(chanceBetween(1, 2, -5, 0, percent)).toBe(0);
    expect(chanceBetween(1, 2, 120, 130, percent)).toBe(0);
  });

  test("far out in the tail a chance keeps its digits", () =>
    expectNear(chanceBetween(0, 1, 10, null), 7.61985302416e-24, 1e-9));

  test("without uncertainty a value on the limit conforms", () => {
    expect(chanceBetween(5, 0, null, 5)).toBe(1);
    expect(chanceBetween(5, 0, 5.01, null)).toBe(0);
  });
});
