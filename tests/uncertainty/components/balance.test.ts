import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { budgetOf } from "../../../src/uncertainty/budget.ts";
import { causesOf } from "../../../src/uncertainty/components/component.ts";
import { componentsOf, massCovariance, massUncertainties } from "../../../src/uncertainty/components/components.ts";
import { readingsOf } from "../../../src/uncertainty/components/readings.ts";
import type { BalanceConditions, Conditions } from "../../../src/uncertainty/conditions.ts";
import { chargeAt, type Graded, massCount, massesOf } from "../../../src/uncertainty/graded.ts";
import { combined } from "../../../src/uncertainty/propagation.ts";
import { passingSensitivity } from "../../../src/uncertainty/sensitivity.ts";
import { expectNear } from "../../grading/near.ts";
import { passingSure, sand, testOf, uPart } from "../situations.ts";

const matrixOf = (graded: Graded, conditions: Conditions): ((i: number, j: number) => number) => {
  const count = massCount(graded);
  const flat = massCovariance(componentsOf(graded, conditions), count);
  return (i, j) => flat[i * count + j]!;
};

const only = (balance: BalanceConditions): Conditions => ({ balance, off: ["loss"] });
const three = testOf("2000:10 1000:20 pan:30", { chargeG: 61 });

describe("one weighing", () => {
  test("is read to within half a step, evenly: u = d / sqrt 12, twice for a difference", () => {
    const at = matrixOf(three, only({ readabilityG: 0.1 }));
    for (const i of [0, 1, 2, chargeAt(three)]) expectNear(at(i, i), (2 * 0.1 ** 2) / 12, 1e-12);
  });

  test("scatters by the repeatability, twice for a difference: u(m) = sqrt 2 s (EURACHEM)", () =>
    expectNear(Math.sqrt(matrixOf(three, only({ repeatabilityG: 0.02 }))(1, 1)), Math.SQRT2 * 0.02, 1e-12));

  test("is off the straight line by at most the linearity, for tare and gross apart (EURACHEM A2)", () =>
    expectNear(matrixOf(three, only({ linearityG: 0.15 }))(0, 0), (2 * 0.15 ** 2) / 3, 1e-12));
});

describe("correlations", () => {
  test("different sieves with tares of their own are independent", () =>
    expect(matrixOf(three, only({ repeatabilityG: 1 }))(0, 1)).toBe(0));

  test("a common tare is in every net mass: covariance s^2", () => {
    const at = matrixOf(three, only({ repeatabilityG: 0.5, tare: "common" }));
    expectNear(at(0, 1), 0.25, 1e-12);
    expectNear(at(2, 0), 0.25, 1e-12);
    expectNear(at(1, 1), 0.5, 1e-12);
    expect(at(0, chargeAt(three))).toBe(0);
  });

  test("the empty sieve counts once a portion: p^2 s^2 of the tare and p s^2 of the full masses", () =>
    expectNear(matrixOf(three, only({ repeatabilityG: 1, portions: 3 }))(0, 0), 9 + 3, 1e-12));

  test("a drift is the same on every net mass and not on the charge", () => {
    const at = matrixOf(three, only({ driftG: 0.3 }));
    for (const i of [0, 1, 2]) for (const j of [0, 1, 2]) expectNear(at(i, j), 0.03, 1e-12);
    expect(at(chargeAt(three), chargeAt(three))).toBe(0);
  });

  test("a drift enters once a portion", () =>
    expectNear(matrixOf(three, only({ driftG: 0.3, portions: 2 }))(0, 1), 4 * 0.03, 1e-12));

  test("a pan that is left over takes the charge's variance and all sieves', with their signs", () => {
    const at = matrixOf({ ...three, panAssumed: true }, only({ repeatabilityG: 1 }));
    expectNear(at(2, 2), 2 + 2 + 2, 1e-12);
    expectNear(at(2, 0), -2, 1e-12);
    expectNear(at(2, chargeAt(three)), 2, 1e-12);
  });

  test("a drift leaves a pan that is left over short by what the sieves gained", () => {
    const at = matrixOf({ ...three, panAssumed: true }, only({ driftG: 0.3 }));
    expectNear(at(2, 2), 4 * 0.03, 1e-12);
    expectNear(at(2, 0), -2 * 0.03, 1e-12);
  });

  test("a covariance matrix is symmetric and its diagonal holds the squares of the uncertainties", () => {
    const graded = sand({ chargeG: 301 });
    const conditions: Conditions = { balance: { readabilityG: 1, driftG: 2, tare: "common" }, apertures: {} };
    const at = matrixOf(graded, conditions);
    const u = massUncertainties(componentsOf(graded, conditions), massCount(graded));
    for (const [i, ui] of u.entries()) {
      expectNear(at(i, i), ui ** 2, 1e-12, 1e-15);
      for (const j of u.keys()) expectNear(at(i, j), at(j, i), 1e-12, 1e-15);
    }
  });
});

describe("readings", () => {
  const net = fc.integer({ min: 1, max: 4 });

  test("every net mass is its full readings less its tare: the signs add to 0", () =>
    fc.assert(
      fc.property(net, fc.constantFrom("each" as const, "common" as const), (portions, tare) => {
        const readings = readingsOf(three, { tare, portions });
        for (const row of [0, 1, 2]) {
          const sum = readings.reduce((so, reading) => so + reading[row]!, 0);
          expect(sum).toBe(0);
        }
        expect(readings).toHaveLength(3 * portions + (tare === "each" ? 3 : 1) + 2);
      }),
    ));

  test("a test without charge reads no charge, a washed one reads two dry masses", () => {
    expect(readingsOf(testOf("2000:10 1000:20 pan:30"))).toHaveLength(6);
    expect(readingsOf(testOf("2000:10 1000:20 pan:30", { chargeG: 65, washedG: 61 }))).toHaveLength(10);
  });
});

test("a scale that is off by a factor cancels: an error in proportion to the masses changes no percentage", () => {
  const graded = sand();
  const inProportion = { byMassG: massesOf(graded).map((g) => 0.01 * g) };
  for (const row of [0, 3, 6]) expectNear(combined([inProportion], passingSensitivity(graded, row)), 0, 0, 1e-12);
});

test("the percentage of a common drift is its share of the rows against its share of the mass", () => {
  const budget = budgetOf(three, only({ driftG: 0.3 }), []);
  const [passing, rows, totalG] = [50, 3, 60];
  const change = (100 * (0.3 / Math.sqrt(3)) * (1 - (rows * passing) / 100)) / totalG;
  expectNear(uPart(passingSure(budget, 1000), "drift"), Math.abs(change), 1e-12);
});

test("what is not stated is not included, each with its reason", () => {
  const components = componentsOf(three, { balance: {} });
  const reasons = components.slice(0, 4).map((c) => (c.included ? "included" : c.reason));
  expect(reasons).toEqual([
    "the step of the balance is not known",
    "the repeatability of the balance is not stated",
    "the linearity of the balance is not stated",
    "the drift of the balance is not stated",
  ]);
  expect(causesOf(componentsOf(three, { off: ["loss"] }))).toEqual([]);
});
