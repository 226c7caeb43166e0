import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fairLoadG } from "../../../src/procedure/load/fairLoad.ts";
import { frameAreaMm2 } from "../../../src/procedure/load/frame.ts";
import { heaviest, loadsOf } from "../../../src/procedure/load/loads.ts";
import { portionsNeeded } from "../../../src/procedure/load/portions.ts";
import { astmC136, en9331 } from "../../../src/procedure/rules/aggregates.ts";
import type { LoadRule } from "../../../src/procedure/rules/ruleSet.ts";
import type { Determination } from "../../../src/record/determination.ts";

const AREA = astmC136.load!;
const ROOT = en9331.load!;
const own = (limitG: number | null, perSieve: Extract<LoadRule, { kind: "own" }>["perSieve"] = []): LoadRule => ({
  kind: "own",
  limitG,
  perSieve,
  standing: "own",
  source: "the product",
});
const numberOf = (found: Determination): number => (found.determinable ? found.value : Number.NaN);
const rules = [AREA, ROOT, own(150)];
const anyRule = fc.constantFrom(...rules);
const anyApertureUm = fc.integer({ min: 20, max: 125_000 });
const anyFrame = fc.constantFrom(200, 203, 254, 300, 305, 400, 450);

describe("the area inside a frame", () => {
  test.each([
    [200, 0, 31_415.93],
    [200, 12.7, 27_553],
    [203, 12.7, 28_502.3],
    [203.2, 12.7, 28_502.3],
    [300, 12.7, 64_828.8],
    [305, 12.7, 67_012],
    [304.8, 12.7, 67_012],
    [400, 12.7, 117_811],
  ])("of %d mm less a rim of %d mm is %d mm2", (frame, rimMm, areaMm2) =>
    expect(Math.abs(frameAreaMm2(frame, rimMm) / areaMm2 - 1)).toBeLessThan(1e-4),
  );

  test("of a rectangle is its sides, with no rim taken off", () =>
    expect(frameAreaMm2({ widthMm: 372, lengthMm: 580 }, 12.7)).toBe(215_760));

  test("is nothing for a frame that is all rim", () => expect(frameAreaMm2(10, 12.7)).toBe(0));
});

describe("what a sieve may hold", () => {
  test("by area is the same for every aperture below 4.75 mm", () => {
    const below = [63, 300, 2360, 4749].map((um) => numberOf(fairLoadG(AREA, um, 203)));
    expect(new Set(below).size).toBe(1);
  });

  test("by area grows with the aperture from 4.75 mm", () => {
    const at = (um: number) => numberOf(fairLoadG(AREA, um, 203));
    expect(at(9500) / at(4750)).toBeCloseTo(2, 12);
    expect(at(4750) / at(4749)).toBeCloseTo((2.5 * 4.75) / 7, 12);
  });

  test("by the root rule doubles when the aperture is four times as wide", () =>
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 30_000 }), anyFrame, (um, frame) => {
        const ratio = numberOf(fairLoadG(ROOT, 4 * um, frame)) / numberOf(fairLoadG(ROOT, um, frame));
        expect(ratio).toBeCloseTo(2, 10);
      }),
    ));

  test("is larger in a larger frame by either published rule", () =>
    fc.assert(
      fc.property(fc.constantFrom(AREA, ROOT), anyApertureUm, (rule, um) => {
        const limits = [200, 203, 300, 305, 400].map((frame) => numberOf(fairLoadG(rule, um, frame)));
        expect(limits).toEqual(limits.toSorted((a, b) => a - b));
      }),
    ));

  test("says the area that it rests on", () =>
    expect(fairLoadG(AREA, 710, 203)).toMatchObject({ unit: "g", assumptions: ["sieving area 0.02850 m2"] }));

  test("by the product's own limit is that limit, whatever the frame", () => {
    expect(fairLoadG(own(150), 710, undefined)).toEqual({ determinable: true, value: 150, unit: "g" });
    expect(fairLoadG(own(150, [{ apertureUm: 63, limitG: 25 }]), 63, 200)).toMatchObject({ value: 25 });
    expect(fairLoadG(own(150, [{ apertureUm: 63, limitG: 25 }]), 125, 200)).toMatchObject({ value: 150 });
  });

  test("can't be told without a frame", () => {
    for (const rule of [AREA, ROOT])
      expect(fairLoadG(rule, 710, undefined)).toEqual({
        determinable: false,
        reason: "the frame of the sieves is not given",
      });
  });

  test("can't be told for a frame that is all rim", () =>
    expect(fairLoadG(AREA, 710, 12)).toEqual({ determinable: false, reason: "the frame leaves no sieving area" }));

  test("can't be told for a sieve that the product leaves out", () =>
    expect(fairLoadG(own(null, [{ apertureUm: 63, limitG: 25 }]), 710, 200)).toEqual({
      determinable: false,
      reason: "the product sets no load for the 710 um sieve",
    }));
});

describe("the loads of a stack", () => {
  const rows = [
    { apertureUm: 1000, netG: 40 },
    { apertureUm: 500, netG: 230 },
    { apertureUm: 63, netG: 30 },
    { apertureUm: 0, netG: 500 },
  ];

  test("leave the pan out", () =>
    expect(loadsOf(rows, AREA, 203).map((load) => load.apertureUm)).toEqual([1000, 500, 63]));

  test("by area: 500 um is beyond 200 g, the rest below", () =>
    expect(loadsOf(rows, AREA, 203).map((load) => load.overloaded)).toEqual([false, true, false]));

  test("by the root rule: the same test overloads 500 um and nearly 63 um", () => {
    const loads = loadsOf(rows, ROOT, 200);
    expect(loads.map((load) => load.overloaded)).toEqual([false, true, false]);
    expect(numberOf(loads[2]!.ratio)).toBeCloseTo(30 / 39.4, 2);
  });

  test("exactly at the limit is no overload", () => {
    const limitG = numberOf(fairLoadG(ROOT, 500, 200));
    expect(loadsOf([{ apertureUm: 500, netG: limitG }], ROOT, 200)[0]!.overloaded).toBe(false);
    expect(loadsOf([{ apertureUm: 500, netG: limitG * 1.0001 }], ROOT, 200)[0]!.overloaded).toBe(true);
  });

  test("name the heaviest by its share of the limit, not by its mass", () => {
    const loads = loadsOf([...rows.slice(0, 2), { apertureUm: 63, netG: 100 }], ROOT, 200);
    expect(heaviest(loads)?.apertureUm).toBe(63);
  });

  test("have no heaviest and no overload where no limit is known", () => {
    const loads = loadsOf(rows, AREA, undefined);
    expect(heaviest(loads)).toBeUndefined();
    expect(loads.some((load) => load.overloaded)).toBe(false);
    expect(loads[0]!.ratio).toEqual({ determinable: false, reason: "the frame of the sieves is not given" });
  });

  test("double with the charge: a heavier charge never lowers a ratio", () =>
    fc.assert(
      fc.property(
        anyRule,
        anyFrame,
        fc.array(fc.record({ apertureUm: anyApertureUm, netG: fc.double({ min: 0, max: 5000, noNaN: true }) })),
        fc.double({ min: 1, max: 10, noNaN: true }),
        (rule, frame, sieves, times) => {
          const before = loadsOf(sieves, rule, frame);
          const after = loadsOf(
            sieves.map((s) => ({ ...s, netG: s.netG * times })),
            rule,
            frame,
          );
          after.forEach((load, i) => {
            expect(numberOf(load.ratio)).toBeGreaterThanOrEqual(numberOf(before[i]!.ratio));
            expect(load.overloaded || !before[i]!.overloaded).toBe(true);
          });
        },
      ),
    ));
});

describe("portions", () => {
  test.each([
    [[0, 0], 1],
    [[100, 40], 1],
    [[200, 40], 1],
    [[200.01, 40], 2],
    [[40, 400], 2],
    [[430, 90], 3],
    [[0, 1999], 10],
  ])("of residues %j on limits of 200 g: %d", (netG, portions) =>
    expect(portionsNeeded(netG, [200, 200])).toEqual({ determinable: true, value: portions, unit: "1" }),
  );

  test("are as few as keep every sieve within its limit", () =>
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            netG: fc.double({ min: 0, max: 5000, noNaN: true }),
            limitG: fc.double({ min: 10, max: 500, noNaN: true }),
          }),
          { minLength: 1 },
        ),
        (sieves) => {
          const portions = numberOf(
            portionsNeeded(
              sieves.map((s) => s.netG),
              sieves.map((s) => s.limitG),
            ),
          );
          const fits = (n: number) => sieves.every((s) => s.netG / n <= s.limitG * (1 + 1e-9));
          expect(fits(portions)).toBe(true);
          expect(portions === 1 || !fits(portions - 1)).toBe(true);
        },
      ),
    ));

  test.each([
    [[100], [200, 300]],
    [
      [100, 50],
      [200, 0],
    ],
    [[100], [Number.NaN]],
  ])("of %j on %j can't be told", (netG, limitsG) =>
    expect(portionsNeeded(netG, limitsG)).toEqual({
      determinable: false,
      reason: "not every sieve has a limit of load",
    }),
  );
});
