import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { estimateOf } from "../../../src/care/effective/estimate.ts";
import type { CurvePoint } from "../../../src/care/effective/scales.ts";
import { type Looked, searched } from "../../../src/care/effective/suspects.ts";
import { normalCdf } from "../../../src/grading/normal.ts";
import { chanceFrom } from "../simulation/chance.ts";

const STACK = [1000, 710, 500, 355, 250, 180, 125];
const { even, normal } = chanceFrom(12);

/** Log-normal tests with a little noise; some sieves off by a part of their aperture. */
function series(errors: Readonly<Record<number, number>>, tests = 30): CurvePoint[][] {
  return Array.from({ length: tests }, () => {
    const medianUm = 380 * Math.exp(normal(0, 0.02));
    return STACK.toReversed().map((apertureUm) => {
      const trueUm = apertureUm * (1 + (errors[apertureUm] ?? 0)) * Math.exp(normal(0, 0.002));
      return { apertureUm, passingPct: 100 * normalCdf(Math.log(trueUm / medianUm) / Math.log(1.8)) };
    });
  });
}
const looked = (toleranceShare: number | null = 0.036): Looked[] =>
  STACK.map((um) => ({
    apertureUm: um,
    knownUm: um,
    toleranceUm: toleranceShare === null ? null : toleranceShare * um,
  }));
const sureness = { confidence: 0.95, resamples: 100, random: even };
const right = series({});
const suspectsOf = (errors: Readonly<Record<number, number>>, sieves = looked()) =>
  [...searched(sieves, { now: series(errors), before: right }, sureness).suspects].toSorted((a, b) => b - a);

describe("suspect sieves", () => {
  test("are none where none is off", () => expect(suspectsOf({})).toEqual([]));

  test.each([
    [{ 500: 0.04 }, [500]],
    [{ 500: -0.04 }, [500]],
    [{ 710: 0.05 }, [710]],
    [{ 180: -0.05 }, [180]],
    [{ 710: 0.06, 250: -0.06 }, [710, 250]],
  ] as const)("of %j are %j, and no neighbour", (errors, suspects) => expect(suspectsOf(errors)).toEqual(suspects));

  test("are none within half of Y: a wide tolerance suspects less", () => {
    expect(suspectsOf({ 500: 0.04 }, looked(0.1))).toEqual([]);
    expect(suspectsOf({ 500: 0.08 }, looked(0.1))).toEqual([500]);
  });

  test("without a known Y are those beyond 2 %", () => {
    expect(suspectsOf({ 500: 0.01 }, looked(null))).toEqual([]);
    expect(suspectsOf({ 500: 0.04 }, looked(null))).toEqual([500]);
  });

  test("are two at most, however many are off", () =>
    expect(suspectsOf({ 710: 0.08, 355: -0.08, 180: 0.08 }).length).toBeLessThanOrEqual(2));
});

describe("the estimate of one sieve", () => {
  const supports = new Set(STACK);

  test("holds a planted error in its range, against tests from before", () =>
    fc.assert(
      fc.property(
        fc.constantFrom(710, 500, 355, 250),
        fc.double({ min: -0.08, max: 0.08, noNaN: true }),
        (um, error) => {
          const estimate = estimateOf({ now: series({ [um]: error }), before: right }, um, supports, sureness);
          if (typeof estimate === "string") throw new Error(estimate);
          expect(Math.abs(estimate.departure - Math.log(1 + error))).toBeLessThan(0.004);
          expect(estimate.from).toBeLessThan(Math.log(1 + error));
          expect(estimate.to).toBeGreaterThan(Math.log(1 + error));
          expect(estimate.tests).toBe(30);
        },
      ),
      { numRuns: 20 },
    ));

  test("is surer with more tests and less sure the more confidence is asked, never surer than 0.3 %", () => {
    const width = (tests: number, confidence: number) => {
      const now = series({}, tests);
      const estimate = estimateOf({ now, before: null }, 500, supports, { confidence, resamples: 300, random: even });
      return typeof estimate === "string" ? Number.NaN : estimate.to - estimate.from;
    };
    expect(width(16, 0.99)).toBeGreaterThan(width(16, 0.8));
    expect(width(200, 0.95)).toBeGreaterThan(0.0059);
  });

  test("against its neighbours alone is less sure than against tests from before", () => {
    const now = series({});
    const [alone, changed] = [null, right].map((before) => estimateOf({ now, before }, 500, supports, sureness));
    if (typeof alone !== "object" || typeof changed !== "object") throw new Error("no estimate");
    expect(alone.to - alone.from).toBeGreaterThan(changed.to - changed.from);
  });

  test("is a reason where too few tests tell of the sieve", () => {
    expect(estimateOf({ now: right.slice(0, 14), before: null }, 500, supports, sureness)).toBe(
      "only 14 tests tell of it, 15 are needed",
    );
    expect(estimateOf({ now: right, before: right.slice(0, 3) }, 500, supports, sureness)).toMatch(
      /only 3 tests from when/,
    );
    expect(estimateOf({ now: right, before: null }, 1000, supports, sureness)).toMatch(/only 0 tests/);
  });
});
