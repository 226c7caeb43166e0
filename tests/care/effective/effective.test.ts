import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blockError, blockLength } from "../../../src/care/effective/blocks.ts";
import { departureOf } from "../../../src/care/effective/departures.ts";
import { effectiveFromTests } from "../../../src/care/effective/effectiveFromTests.ts";
import { type CurvePoint, DRAWINGS, sizeThrough } from "../../../src/care/effective/scales.ts";
import { blindSpot, meanCurve, supportsOf } from "../../../src/care/effective/support.ts";
import { latestOf, pointsOf, type StackTest } from "../../../src/care/effective/tests.ts";
import { normalCdf } from "../../../src/grading/normal.ts";
import { numberOf, reasonOf } from "../../grading/stack.ts";
import { chanceFrom } from "../simulation/chance.ts";
import { MATERIALS } from "../simulation/materials.ts";
import { routineTests } from "../simulation/sieving.ts";

const STACK = [125, 180, 250, 355, 500, 710, 1000];
const logNormal = (um: number) => 100 * normalCdf(Math.log(um / 400) / Math.log(1.8));
const rosin = (um: number) => 100 * (1 - Math.exp(-((um / 500) ** 1.6)));
const power = (um: number) => 100 * (um / 1200) ** 0.7;
const points = (law: (um: number) => number, wrongUm = 0, error = 0): CurvePoint[] =>
  STACK.map((um) => ({ apertureUm: um, passingPct: law(um === wrongUm ? um * (1 + error) : um) }));
const all = new Set(STACK);

describe("a curve drawn through neighbours", () => {
  test.each([
    ["log-normal", logNormal, [0, 1]],
    ["Rosin-Rammler", rosin, [2, 3]],
    ["power", power, [4, 5]],
  ] as const)("finds every size of a %s grading exactly on that grading's own scale", (_, law, drawings) =>
    fc.assert(
      fc.property(fc.double({ min: 130, max: 990, noNaN: true }), (um) => {
        for (const d of drawings) {
          const drawing = DRAWINGS[d];
          expect(drawing && sizeThrough(points(law), law(um), drawing)).toBeCloseTo(um, 5);
        }
      }),
    ),
  );

  test("ends with its points", () => {
    for (const drawing of DRAWINGS) {
      expect(sizeThrough(points(logNormal), logNormal(120), drawing)).toBeUndefined();
      expect(sizeThrough(points(logNormal), logNormal(1010), drawing)).toBeUndefined();
      expect(sizeThrough([], 50, drawing)).toBeUndefined();
    }
  });
});

describe("the departure of one sieve in one test", () => {
  test.each([-0.06, -0.03, 0, 0.03, 0.06])("gives a planted error of %d back on the grading's own scale", (error) => {
    const departure = departureOf(points(logNormal, 355, error), 355, all);
    expect(Math.exp(departure?.[0] ?? 1) - 1).toBeCloseTo(error, 9);
    expect(Math.exp(departure?.[1] ?? 1) - 1).toBeCloseTo(error, 9);
  });

  test("is what the neighbours show the other way, unless the wrong one is set aside", () => {
    const wrong = points(logNormal, 355, 0.06);
    expect(departureOf(wrong, 500, all)?.[1]).toBeLessThan(-0.01);
    expect(departureOf(wrong, 500, new Set(STACK.filter((um) => um !== 355)))?.[1]).toBeCloseTo(0, 9);
  });

  test("is not told at an end, of an absent sieve, nor of one that passes all or nothing", () => {
    expect(departureOf(points(logNormal), 125, all)).toBeNull();
    expect(departureOf(points(logNormal), 1000, all)).toBeNull();
    expect(departureOf(points(logNormal), 600, all)).toBeNull();
    const full = points(logNormal).map((p) => (p.apertureUm === 500 ? { ...p, passingPct: 100 } : p));
    expect(departureOf(full, 500, all)).toBeNull();
  });
});

describe("where nothing can be said", () => {
  const curve = (...passed: number[]): CurvePoint[] =>
    passed.map((passingPct, i) => ({ apertureUm: STACK[i] ?? 0, passingPct }));

  test("only sieves from 1 to 99 % support a curve", () =>
    expect(supportsOf(curve(0.4, 1, 30, 60, 99, 99.6)).map((p) => p.passingPct)).toEqual([1, 30, 60, 99]));

  test("an end, a sieve without slope and a shelf are told apart", () => {
    const plain = curve(2, 8, 25, 50, 75, 92, 98);
    expect(STACK.map((um) => blindSpot(plain, um)?.slice(0, 24) ?? null)).toEqual([
      "it stands at an end of t",
      null,
      null,
      null,
      null,
      null,
      "it stands at an end of t",
    ]);
    expect(blindSpot(curve(0.2, 8, 25, 50, 75, 92, 98), 125)).toMatch(/passes under 1 or over 99 %/);
    const shelf = curve(2, 20, 45, 48, 70, 90, 98);
    expect(blindSpot(shelf, 250)).toMatch(/shelf.*blend of two materials/);
    expect(blindSpot(shelf, 355)).toMatch(/shelf/);
    expect(blindSpot(shelf, 710)).toBeNull();
  });

  test("a sieve 6 % off makes no shelf", () => {
    for (const um of STACK.slice(1, -1))
      for (const error of [-0.06, 0.06])
        expect(blindSpot(points(logNormal, um, error), um) ?? "", `${um} ${error}`).not.toMatch(/shelf/);
  });

  test("the mean curve is robust: a fifth of the tests may be wild", () => {
    const wild = points(() => 50);
    const mean = meanCurve([...Array.from({ length: 9 }, () => points(logNormal)), wild]);
    expect(mean[2]?.passingPct).toBeCloseTo(logNormal(250), 9);
  });
});

describe("the block bootstrap", () => {
  test("has blocks that grow with the cube root of the tests", () =>
    expect([1, 8, 27, 64, 1000].map(blockLength)).toEqual([2, 3, 5, 6, 15]));

  test("gives the same error for the same seed, and nearly the same for another", () => {
    const { normal } = chanceFrom(2);
    const series = Array.from({ length: 60 }, () => normal(0, 1));
    const error = (seed: number) => blockError(series, 400, chanceFrom(seed).even);
    expect(error(1)).toBe(error(1));
    expect(Math.abs(error(1) / error(2) - 1)).toBeLessThan(0.2);
  });

  test("finds the error of a robust mean of independent noise, about s / root n", () => {
    const errors = Array.from({ length: 60 }, (_, k) => {
      const { normal, even } = chanceFrom(100 + k);
      const series = Array.from({ length: 100 }, () => normal(5, 2));
      return blockError(series, 200, even);
    });
    const mean = errors.reduce((a, b) => a + b, 0) / errors.length;
    expect(mean).toBeGreaterThan(0.17);
    expect(mean).toBeLessThan(0.26);
  });

  test("is wider for a series whose neighbours resemble each other", () => {
    const ratios = Array.from({ length: 20 }, (_, k) => {
      const { normal, even } = chanceFrom(200 + k);
      let before = 0;
      const alike = Array.from({ length: 200 }, () => {
        before = 0.8 * before + normal(0, 0.6);
        return before;
      });
      const apart = Array.from({ length: 200 }, () => normal(0, 1));
      return blockError(alike, 150, even) / blockError(apart, 150, even);
    });
    expect(ratios.reduce((a, b) => a + b, 0) / ratios.length).toBeGreaterThan(1.5);
  });
});

describe("tests as they are taken", () => {
  const test1: StackTest = {
    at: "2026-11-24T10:00:00+01:00",
    sieves: [
      { apertureUm: 1000, passingPct: 90 },
      { apertureUm: 500, passingPct: 40 },
    ],
  };

  test("finest first, each at what is known of it", () =>
    expect(pointsOf(test1, new Map([[500, 512]]))).toEqual([
      { apertureUm: 512, passingPct: 40 },
      { apertureUm: 1000, passingPct: 90 },
    ]));

  test("the latest so many, by their moments and not by their texts", () => {
    const later = { ...test1, at: "2026-11-24T09:30:00+00:00" };
    expect(latestOf([later, test1], 1)).toEqual([later]);
    expect(latestOf([later, test1], 5)).toEqual([test1, later]);
  });
});

describe("effective apertures", () => {
  const sand = MATERIALS[1];
  const wider = (um: number, error: number) => sand.stackUm.map((a) => (a === um ? a * (1 + error) : a));
  const run = (trueUm: readonly number[], seed: number, tests = 40) =>
    routineTests(sand, trueUm, tests, chanceFrom(seed));
  const look = (now: StackTest[], choice = {}, seed = 1) => effectiveFromTests(now, choice, chanceFrom(seed).even);
  const before = run(sand.stackUm, 50);
  const found = look(run(wider(710, 0.05), 51), { before });
  const at710 = found.sieves.find((s) => s.apertureUm === 710);

  test("of a sieve 5 % too wide is about 746 um, beyond Y, and the advice says so and that no result changes", () => {
    expect(numberOf(at710?.effectiveUm ?? { determinable: false, reason: "none" })).toBeCloseTo(745.5, -1);
    expect(at710).toMatchObject({ suspect: true, againstY: "beyond", tests: 40 });
    expect(at710?.advice).toMatch(
      /the 710 um sieve sieves like 74\d um \(7\d\d um to 7\d\d um; Y allows 685 um to 735 um\)/,
    );
    expect(at710?.advice).toMatch(/or its neighbours are off the other way.*no result is changed/);
  });

  test("of the others are within Y and give no advice", () => {
    const others = found.sieves.filter((s) => s.apertureUm !== 710 && s.fromUm !== null);
    expect(others.length).toBeGreaterThanOrEqual(2);
    for (const one of others) expect(one).toMatchObject({ suspect: false, againstY: "within", advice: null });
  });

  test("at the ends are not told, with the reason, and are never suspect", () => {
    const end = found.sieves[0];
    expect(end).toMatchObject({ apertureUm: 1400, suspect: false, fromUm: null, againstY: "not judged" });
    expect(reasonOf(end?.effectiveUm ?? { determinable: true, value: 0, unit: "" })).toMatch(
      /end of the curve|no slope|over 99/,
    );
  });

  test("say on what they rest", () => {
    expect(found.notes).toEqual([
      "ranges hold for all sieves together at 95 %",
      "nominal apertures",
      "the change since the stack was known to be right",
    ]);
    expect(look(before).notes[2]).toMatch(/cannot tell a wrong sieve from a bend/);
  });

  test("are the same for the same seed, and in whatever order the tests come", () => {
    const now = run(wider(710, 0.05), 51);
    expect(look(now, { before })).toEqual(found);
    expect(look(now.toReversed(), { before: before.toReversed() })).toEqual(found);
  });

  test("are measured from what is known of the sieve", () => {
    const knownUm = new Map([[710, 745.5]]);
    const known = look(run(wider(710, 0.05), 51), { knownUm }).sieves.find((s) => s.apertureUm === 710);
    expect(known?.suspect).toBe(false);
    expect(known?.againstY).not.toBe("within");
  });

  test("need fifteen tests, before and now", () => {
    const few = look(run(sand.stackUm, 3, 14));
    expect(few.sieves.every((s) => !s.effectiveUm.determinable)).toBe(true);
    expect(few.notes.join()).toMatch(/14 tests say nothing: 15 are needed/);
    const reasons = look(before, { before: run(sand.stackUm, 3, 9) }).sieves.map((s) => s.effectiveUm);
    expect(reasons.some((r) => !r.determinable && /only 9 tests from when/.test(r.reason))).toBe(true);
  });

  test("of no tests are none", () => expect(look([]).sieves).toEqual([]));
});
