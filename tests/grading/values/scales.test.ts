import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { GradingChoices } from "../../../src/grading/grading.ts";
import { percentiles } from "../../../src/grading/percentile.ts";
import { characteristicValues } from "../../../src/grading/values/table.ts";
import { VALUE_IDS, type ValueId } from "../../../src/record/valueIds.ts";
import { expectNear } from "../near.ts";
import { anyInterpolation, choices, fraction, gradedOf, risingFractions } from "../stack.ts";

/** How each value follows sizes that are all multiplied by c; the others are bound to fixed sieves. */
const FOLLOWS: Partial<Record<ValueId, (value: number, c: number) => number>> = {
  uniformityCoefficient: (value) => value,
  curvatureCoefficient: (value) => value,
  effectiveSizeUm: (value, c) => value * c,
  relativeSpan: (value) => value,
  sizeGuideNumber: (value, c) => value * c,
  uniformityIndex: (value) => value,
  geometricMeanDiameterUm: (value, c) => value * c,
  geometricStandardDeviation: (value) => value,
  geometricStandardDeviationUm: (value, c) => value * c,
  surfaceAreaCm2PerG: (value, c) => value / c,
  particlesPerG: (value, c) => value / c ** 3,
  phiGraphicMean: (value, c) => value - Math.log2(c),
  phiGraphicSorting: (value) => value,
  phiGraphicSkewness: (value) => value,
  phiGraphicKurtosis: (value) => value,
  phiMomentMean: (value, c) => value - Math.log2(c),
  phiMomentSorting: (value) => value,
  phiMomentSkewness: (value) => value,
  phiMomentKurtosis: (value) => value,
  massMeanDiameterUm: (value, c) => value * c,
  sauterMeanDiameterUm: (value, c) => value * c,
  specificSurfaceM2PerKg: (value, c) => value / c,
};

const material = { particleDensityKgM3: 1320 };
const topOf = (fractions: readonly { apertureUm: number }[]) => 1.5 * Math.max(...fractions.map((f) => f.apertureUm));

describe("sizes times c, with the top bound", () => {
  test("only the two values that are bound to fixed sieves are not in this test", () => {
    expect(VALUE_IDS.filter((id) => !(id in FOLLOWS))).toEqual(["finenessModulus", "grainFinenessNumber"]);
  });

  test("every size follows c, every surface 1/c, every count 1/c^3, every phi its logarithm, and ratios stay", () => {
    fc.assert(
      fc.property(
        risingFractions,
        anyInterpolation,
        fc.constantFrom(0.001, 0.4, 3, 1000),
        (fractions, interpolation, c) => {
          const valuesAt = (scale: number) => {
            const scaled = fractions.map((f) => ({ ...f, apertureUm: f.apertureUm * scale }));
            return characteristicValues(gradedOf(scaled), choices({ interpolation, material, topUm: topOf(scaled) }));
          };
          const [plain, scaled] = [valuesAt(1), valuesAt(c)];
          for (const [id, follow] of Object.entries(FOLLOWS)) {
            const [one, other] = [plain[id as ValueId], scaled[id as ValueId]];
            expect(other.determinable).toBe(one.determinable);
            if (one.determinable && other.determinable) expectNear(other.value, follow(one.value, c), 1e-6, 1e-6);
          }
        },
      ),
    );
  });
});

describe("what must make no difference", () => {
  const sameFor = (one: ReturnType<typeof gradedOf>, other: ReturnType<typeof gradedOf>, chosen: GradingChoices) => {
    const [a, b] = [one, other].map((grading) => ({
      ...characteristicValues(grading, chosen),
      ...percentiles(grading, chosen.interpolation),
    }));
    for (const [name, found] of Object.entries(a ?? {})) {
      const twin = b?.[name as ValueId];
      expect(twin?.determinable).toBe(found.determinable);
      if (found.determinable && twin?.determinable) expectNear(twin.value, found.value, 1e-9, 1e-9);
    }
  };

  test("a charge equal to what was recovered, whichever is the basis", () => {
    fc.assert(
      fc.property(risingFractions, anyInterpolation, (fractions, interpolation) => {
        const one = gradedOf(fractions);
        const ofCharge = gradedOf(fractions, { basis: "charge", chargeG: one.recoveredG });
        const chosen = choices({ material, interpolation });
        sameFor(one, ofCharge, chosen);
      }),
      { numRuns: 50 },
    );
  });

  test("one more empty sieve on top of an empty one", () => {
    fc.assert(
      fc.property(risingFractions, anyInterpolation, (fractions, interpolation) => {
        const topUm = topOf(fractions);
        const one = [...fractions, fraction(topUm, 0)];
        const chosen = choices({ material, interpolation: interpolation === "monotone" ? "linear" : interpolation });
        sameFor(gradedOf(one), gradedOf([...one, fraction(2 * topUm, 0)]), chosen);
      }),
      { numRuns: 50 },
    );
  });

  test("one more empty sieve below an empty pan, for all but the curve beyond the finest grain", () => {
    const chosen = choices({ material });
    const one = gradedOf([fraction(2000, 0), fraction(1000, 30), fraction(500, 60), fraction(250, 10), fraction(0, 0)]);
    const other = gradedOf([...one.rows.slice(0, -1), fraction(125, 0), fraction(0, 0)]);
    sameFor(one, other, chosen);
  });

  test("every mass twice, as if two tests were pooled", () => {
    fc.assert(
      fc.property(risingFractions, anyInterpolation, (fractions, interpolation) => {
        const pooled = gradedOf(fractions.map((f) => ({ ...f, netG: 2 * f.netG })));
        sameFor(gradedOf(fractions), pooled, choices({ material, interpolation }));
      }),
      { numRuns: 50 },
    );
  });
});
