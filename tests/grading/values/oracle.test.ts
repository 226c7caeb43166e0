import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Fraction } from "../../../src/grading/grading.ts";
import type { ValueId } from "../../../src/record/valueIds.ts";
import { expectNear } from "../near.ts";
import { choices, fraction, gradedOf } from "../stack.ts";
import { number } from "./valuesOf.ts";

/** The AFS set coarsest first with an empty 4.75 mm sieve on top and the pan, masses at random. */
const APERTURES = [4750, 3350, 1700, 850, 600, 425, 300, 212, 150, 106, 75, 53, 0];
const anyStack = fc
  .array(fc.integer({ min: 0, max: 9000 }), { minLength: 12, maxLength: 12 })
  .filter((masses) => masses.filter((m) => m > 0).length > 1)
  .map((masses) => APERTURES.map((um, i) => fraction(um, i === 0 ? 0 : (masses[i - 1] ?? 0) / 100)));

interface Grain {
  readonly lowerUm: number;
  readonly upperUm: number;
  readonly g: number;
}

/** The classes as a person would write them down, straight from the masses. */
const grains = (stack: readonly Fraction[]): Grain[] =>
  stack
    .map(({ apertureUm, netG }, i) => ({
      lowerUm: apertureUm === 0 ? 26.5 : apertureUm,
      upperUm: stack[i - 1]?.apertureUm ?? Number.NaN,
      g: netG,
    }))
    .filter(({ g }) => g > 0);

const total = (classes: readonly Grain[]) => classes.reduce((sum, { g }) => sum + g, 0);
const mean = (classes: readonly Grain[], of: (grain: Grain) => number) =>
  classes.reduce((sum, grain) => sum + grain.g * of(grain), 0) / total(classes);
const middle = ({ lowerUm, upperUm }: Grain) => (lowerUm + upperUm) / 2;
const log = ({ lowerUm, upperUm }: Grain) => Math.log10(Math.sqrt(lowerUm * upperUm));
const phi = ({ lowerUm, upperUm }: Grain) => -Math.log2(Math.sqrt(lowerUm * upperUm) / 1000);

const central = (classes: readonly Grain[], power: number) => {
  const average = mean(classes, phi);
  return mean(classes, (grain) => (phi(grain) - average) ** power);
};
const slog = (classes: readonly Grain[]) => {
  const average = mean(classes, log);
  return Math.sqrt(mean(classes, (grain) => (log(grain) - average) ** 2));
};

const STRAIGHT_FROM_MASSES: readonly (readonly [ValueId, (classes: readonly Grain[]) => number])[] = [
  ["massMeanDiameterUm", (classes) => mean(classes, middle)],
  ["sauterMeanDiameterUm", (classes) => 1 / mean(classes, (grain) => 1 / middle(grain))],
  ["specificSurfaceM2PerKg", (classes) => (6 / 2650) * mean(classes, (grain) => 1e6 / middle(grain))],
  ["geometricMeanDiameterUm", (classes) => 10 ** mean(classes, log)],
  ["geometricStandardDeviation", (classes) => 10 ** slog(classes)],
  [
    "geometricStandardDeviationUm",
    (classes) => (10 ** mean(classes, log) / 2) * (10 ** slog(classes) - 10 ** -slog(classes)),
  ],
  ["phiMomentMean", (classes) => mean(classes, phi)],
  ["phiMomentSorting", (classes) => Math.sqrt(central(classes, 2))],
  ["phiMomentSkewness", (classes) => central(classes, 3) / central(classes, 2) ** 1.5],
  ["phiMomentKurtosis", (classes) => central(classes, 4) / central(classes, 2) ** 2],
];

describe("each value is what its formula gives straight from the masses", () => {
  test.each(STRAIGHT_FROM_MASSES)("%s", (id, formula) => {
    fc.assert(
      fc.property(anyStack, (stack) => {
        const material = { particleDensityKgM3: 2650 };
        expectNear(number(id, gradedOf(stack), choices({ material })), formula(grains(stack)), 1e-9, 1e-9);
      }),
    );
  });

  test("grainFinenessNumber", () => {
    const counts = [3, 3, 5, 10, 20, 30, 40, 50, 70, 100, 140, 200, 300];
    fc.assert(
      fc.property(anyStack, (stack) => {
        const sum = stack.reduce((all, { netG }) => all + netG, 0);
        const fineness = stack.reduce((all, { netG }, i) => all + netG * (counts[i] ?? Number.NaN), 0) / sum;
        expectNear(number("grainFinenessNumber", gradedOf(stack)), fineness, 1e-12);
      }),
    );
  });

  test("finenessModulus: a grain counts one for every sieve of the series that holds it back", () => {
    const series = [9500, 4750, 2360, 1180, 600, 300, 150];
    const anyModulusStack = fc
      .array(fc.integer({ min: 0, max: 9000 }), { minLength: 7, maxLength: 7 })
      .filter((masses) => masses.some((m) => m > 0))
      .map((masses) => [...series, 0].map((um, i) => fraction(um, i === 0 ? 0 : (masses[i - 1] ?? 0) / 100)));
    fc.assert(
      fc.property(anyModulusStack, (stack) => {
        const sum = stack.reduce((all, { netG }) => all + netG, 0);
        const held = stack.reduce(
          (all, { apertureUm, netG }) => all + netG * series.filter((um) => apertureUm > 0 && um <= apertureUm).length,
          0,
        );
        expectNear(number("finenessModulus", gradedOf(stack)), held / sum, 1e-12, 1e-12);
      }),
    );
  });
});

describe("coarser material", () => {
  const coarserUp: readonly ValueId[] = [
    "massMeanDiameterUm",
    "sauterMeanDiameterUm",
    "geometricMeanDiameterUm",
    "finenessModulus",
  ];
  const coarserDown: readonly ValueId[] = ["grainFinenessNumber", "phiMomentMean", "specificSurfaceM2PerKg"];
  const all = { material: { particleDensityKgM3: 2650 }, modulusInterpolateMissing: true };

  test("raises the means and the fineness modulus, lowers fineness number, phi and surface", () => {
    fc.assert(
      fc.property(anyStack, fc.integer({ min: 1, max: 10 }), fc.integer({ min: 1, max: 5 }), (stack, at, up) => {
        const from = stack[at + 1];
        const to = stack[Math.max(1, at + 1 - up)];
        fc.pre(from !== undefined && to !== undefined && from !== to && from.netG >= 1);
        const moved = stack.map((f) =>
          f === from ? { ...f, netG: f.netG - 1 } : f === to ? { ...f, netG: f.netG + 1 } : f,
        );
        for (const id of coarserUp.filter((v) => v !== "finenessModulus")) {
          expect(number(id, gradedOf(moved), all)).toBeGreaterThan(number(id, gradedOf(stack), all));
        }
        for (const id of coarserDown) {
          expect(number(id, gradedOf(moved), all)).toBeLessThan(number(id, gradedOf(stack), all));
        }
        const modulus = [stack, moved].map((rows) => number("finenessModulus", gradedOf(rows), all));
        expect(modulus[1]).toBeGreaterThanOrEqual((modulus[0] ?? 0) - 1e-12);
      }),
    );
  });
});
