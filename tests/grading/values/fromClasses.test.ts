import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { ValueId } from "../../../src/record/valueIds.ts";
import { expectNear } from "../near.ts";
import { anyFractions, assumptionsOf, fraction, graded, gradedOf } from "../stack.ts";
import { number, reason, resultOf } from "./valuesOf.ts";

const sand = { particleDensityKgM3: 2650 };
/** Classes of 3 mm, 1.5 mm and 0.75 mm, a quarter, a half and a quarter of the mass. */
const three = graded("4000:0 2000:25 1000:50 500:25 pan:0");

describe("worked by hand from three classes", () => {
  test("mass mean: (3 + 2 x 1.5 + 0.75)/4 mm", () => expectNear(number("massMeanDiameterUm", three), 1687.5, 1e-15));

  test("Sauter mean: 4/(1/3 + 2/1.5 + 1/0.75) mm", () => {
    expectNear(number("sauterMeanDiameterUm", three), 4000 / (1 / 3 + 2 / 1.5 + 1 / 0.75), 1e-15);
  });

  test("specific surface: 6/(density x Sauter mean)", () => {
    const expected = 6 / (2650 * 1e-6 * number("sauterMeanDiameterUm", three));
    expectNear(number("specificSurfaceM2PerKg", three, { material: sand }), expected, 1e-14);
  });

  test("moments on the phi scale: classes at -1.5, -0.5 and 0.5 phi", () => {
    expectNear(number("phiMomentMean", three), -0.5, 1e-13);
    expectNear(number("phiMomentSorting", three), Math.SQRT1_2, 1e-13);
    expectNear(number("phiMomentSkewness", three), 0, 0, 1e-13);
    expectNear(number("phiMomentKurtosis", three), 2, 1e-13);
  });
});

describe("the shape of the grains", () => {
  const surface = (material: object) =>
    resultOf("specificSurfaceM2PerKg", three, { material: { ...sand, ...material } });
  const round = number("specificSurfaceM2PerKg", three, { material: sand });

  test("without a word spheres or cubes are taken, and that is told", () => {
    expect(assumptionsOf(surface({}))).toEqual(["shape: spheres or cubes (sphericity 1)"]);
  });

  test("sphericity 0.5 doubles the surface", () => {
    expect(surface({ sphericity: 0.5 })).toMatchObject({ value: 2 * round });
    expect(assumptionsOf(surface({ sphericity: 0.5 }))).toEqual([]);
  });

  test("shape factors count where no sphericity is given", () => {
    expect(surface({ surfaceShapeFactor: 9, volumeShapeFactor: 0.5 })).toMatchObject({ value: 3 * round });
    expect(surface({ surfaceShapeFactor: 9, sphericity: 1 })).toMatchObject({ value: round });
  });
});

describe("all in one class", () => {
  const one = graded("2000:0 1000:70 500:0 pan:0");

  test("every mean is its size", () => {
    for (const id of ["massMeanDiameterUm", "sauterMeanDiameterUm"] as const) expectNear(number(id, one), 1500, 1e-15);
  });

  test("no spread, no shape", () => {
    expect(number("phiMomentSorting", one)).toBe(0);
    expect(reason("phiMomentSkewness", one)).toBe("all lies in one class: it has no shape");
    expect(reason("phiMomentKurtosis", one)).toBe("all lies in one class: it has no shape");
  });
});

describe("against brute-force integration of a fine log-normal (median 400 um, ratio 1.6)", () => {
  const STEPS = 4000;
  const spread = Math.log(1.6);
  const density = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  const integral = (of: (x: number) => number) =>
    Array.from({ length: 20 * 1000 }, (_, i) => -10 + (i + 0.5) / 1000).reduce(
      (sum, z) => sum + (density(z) * of(400 * Math.exp(spread * z))) / 1000,
      0,
    );
  const edges = Array.from({ length: STEPS + 1 }, (_, i) => 7 - (14 * i) / STEPS);
  const sieves = edges.map((z, i) => fraction(400 * Math.exp(spread * z), i === 0 ? 0 : 1e5 * density(z + 7 / STEPS)));
  const fine = gradedOf([...sieves, fraction(0, 0)]);

  test.each([
    ["massMeanDiameterUm", integral((x) => x)],
    ["sauterMeanDiameterUm", 1 / integral((x) => 1 / x)],
    ["phiMomentMean", integral((x) => -Math.log2(x / 1000))],
    ["phiMomentSorting", Math.log2(1.6)],
    ["phiMomentKurtosis", 3],
  ] satisfies [ValueId, number][])("%s", (id, expected) => expectNear(number(id, fine), expected, 1e-5));

  test("phiMomentSkewness", () => expectNear(number("phiMomentSkewness", fine), 0, 0, 1e-9));
});

test("the Sauter mean never exceeds the geometric, nor that the mass mean, on the same class sizes", () => {
  fc.assert(
    fc.property(anyFractions, fc.constantFrom("arithmetic", "geometric", "logarithmic"), (fractions, classMean) => {
      const grading = gradedOf(fractions);
      const sizes = (["sauterMeanDiameterUm", "geometricMeanDiameterUm", "massMeanDiameterUm"] as const).map((id) =>
        number(id, grading, { classMean }),
      );
      expect(sizes[0]).toBeLessThanOrEqual((sizes[1] ?? 0) * (1 + 1e-9));
      expect(sizes[1]).toBeLessThanOrEqual((sizes[2] ?? 0) * (1 + 1e-9));
    }),
  );
});
