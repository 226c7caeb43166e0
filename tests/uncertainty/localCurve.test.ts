import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalCdf } from "../../src/grading/normal.ts";
import { classBoundsUm, topBoundUm } from "../../src/uncertainty/classBounds.ts";
import type { Graded } from "../../src/uncertainty/graded.ts";
import { localCurve } from "../../src/uncertainty/localCurve.ts";
import { expectNear } from "../grading/near.ts";
import { choices, gradedOf, passing, risingFractions } from "../grading/stack.ts";
import { testOf } from "./situations.ts";

const SIEVES = [4000, 2800, 2000, 1400, 1000, 710, 500, 355, 250, 180, 125] as const;

const curveThrough = (share: (um: number) => number): Graded => ({
  grading: passing(SIEVES.map((um) => `${um}:${100 * share(um)}`).join(" ")),
  choices: choices(),
});

describe("the slope at a sieve", () => {
  test("of a log-normal curve is its density, at every sieve and to the ends", () => {
    const graded = curveThrough((um) => normalCdf(Math.log(um / 700) / 0.6));
    for (const [row, um] of SIEVES.entries()) {
      const z = Math.log(um / 700) / 0.6;
      const density = (100 * Math.exp(-0.5 * z * z)) / (0.6 * Math.sqrt(2 * Math.PI));
      expectNear(localCurve(graded, row).slopePctPerLn, density, 1e-6);
    }
  });

  test("of a log-logistic curve, whose tails are heavier, is met within 3 % between the ends", () => {
    const graded = curveThrough((um) => 1 / (1 + (600 / um) ** 2.6));
    for (const [row, um] of SIEVES.entries()) {
      const share = 1 / (1 + (600 / um) ** 2.6);
      const near = row === 0 || row === SIEVES.length - 1 ? 0.08 : 0.03;
      expectNear(localCurve(graded, row).slopePctPerLn, 260 * share * (1 - share), near);
    }
  });

  test("is 0 where the sieve itself passes all or nothing", () => {
    const graded = testOf("4000:0 2000:50 1000:50 500:0 pan:0");
    expect(localCurve(graded, 0)).toMatchObject({ passingPct: 100, slopePctPerLn: 0 });
    expect(localCurve(graded, 2)).toMatchObject({ passingPct: 0, slopePctPerLn: 0 });
    expect(localCurve(graded, 0).passingPctAt(3900)).toBe(100);
  });

  test("of a sieve between 0 and 100 % is the mean of the two chords", () => {
    const graded = testOf("4000:0 2000:40 1000:60 pan:0");
    const mean = (40 / Math.log(2) + 60 / Math.log(2)) / 2;
    expectNear(localCurve(graded, 1).slopePctPerLn, mean, 1e-9);
  });

  test("of a lonely sieve rests on the open ends", () => {
    const graded = testOf("1000:40 pan:60");
    const mean = (40 / Math.log(1.4) + 60 / Math.log(2)) / 2;
    expectNear(localCurve(graded, 0).slopePctPerLn, mean, 1e-9);
  });

  test("is never negative, and the curve near the sieve never falls and stays within 0 to 100 %", () =>
    fc.assert(
      fc.property(risingFractions, (fractions) => {
        const graded: Graded = { grading: gradedOf(fractions), choices: choices() };
        for (const [row, { apertureUm, passingPct }] of graded.grading.rows.slice(0, -1).entries()) {
          const local = localCurve(graded, row);
          expect(local.slopePctPerLn).toBeGreaterThanOrEqual(-1e-9);
          expectNear(local.passingPctAt(apertureUm), passingPct, 1e-9, 1e-9);
          const near = [0.9, 0.95, 0.99, 1, 1.01, 1.05, 1.1].map((f) => local.passingPctAt(f * apertureUm));
          for (const [i, pct] of near.slice(1).entries()) expect(pct).toBeGreaterThanOrEqual(near[i]! - 1e-9);
          expect(near[0]).toBeGreaterThanOrEqual(0);
          expect(near.at(-1)).toBeLessThanOrEqual(100 + 1e-9);
        }
      }),
    ));

  test("is the derivative of the curve near the sieve", () => {
    const graded = curveThrough((um) => 1 / (1 + (600 / um) ** 2.6));
    for (const [row, um] of SIEVES.entries()) {
      const { passingPctAt, slopePctPerLn } = localCurve(graded, row);
      const step = 1e-5;
      const slope = (passingPctAt(um * (1 + step)) - passingPctAt(um * (1 - step))) / (2 * step);
      expectNear(slope, slopePctPerLn, 1e-6);
    }
  });
});

describe("classes", () => {
  const graded = testOf("2000:10 1000:20 pan:30");

  test("reach from a sieve to the next coarser one, the ends by CP-9", () => {
    expect(classBoundsUm(graded, 0)).toEqual({ lowerUm: 2000, upperUm: 2800 });
    expect(classBoundsUm(graded, 1)).toEqual({ lowerUm: 1000, upperUm: 2000 });
    expect(classBoundsUm(graded, 2)).toEqual({ lowerUm: 500, upperUm: 1000 });
  });

  test("end at the product's own top size where it has one", () => {
    expect(topBoundUm(testOf("2000:10 1000:20 pan:30", {}, { topUm: 3000 }))).toBe(3000);
    expect(topBoundUm(testOf("2000:0 1000:20 pan:30", {}, { topUm: 3000 }))).toBe(2800);
  });
});
