import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { curveOf } from "../../../src/grading/curve.ts";
import type { Grading } from "../../../src/grading/grading.ts";
import { passingAt } from "../../../src/grading/passingAt.ts";
import { percentileUm } from "../../../src/grading/percentile.ts";
import { INTERPOLATIONS } from "../../../src/record/product.ts";
import { expectNear } from "../near.ts";
import { anyFractions, anyInterpolation, gradedOf, numberOf, risingFractions } from "../stack.ts";

const share = fc.double({ min: 0, max: 1, noNaN: true });
const inside = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });

const ends = (grading: Grading) => {
  const { apertureUm, passingPct } = curveOf(grading);
  const [finestUm = 0, coarsestUm = 0] = [apertureUm[0], apertureUm.at(-1)];
  return { finestUm, coarsestUm, lowestPct: passingPct[0] ?? 0, highestPct: passingPct.at(-1) ?? 0 };
};

const sizeAt = (grading: Grading, way: number) => {
  const { finestUm, coarsestUm } = ends(grading);
  return Math.min(coarsestUm, finestUm * (coarsestUm / finestUm) ** way);
};

describe.each(INTERPOLATIONS)("%s", (interpolation) => {
  const at = (grading: Grading, um: number) => numberOf(passingAt(grading, um, interpolation));

  test("passing never falls as the size grows and stays between 0 and 100", () => {
    fc.assert(
      fc.property(
        anyFractions.map((f) => gradedOf(f)),
        share,
        share,
        (grading, one, other) => {
          const [low, high] = [Math.min(one, other), Math.max(one, other)].map((way) =>
            at(grading, sizeAt(grading, way)),
          );
          expect(low).toBeGreaterThanOrEqual(0);
          expect(high).toBeLessThanOrEqual(100);
          expect((high ?? 0) - (low ?? 0)).toBeGreaterThanOrEqual(-1e-10);
        },
      ),
    );
  });

  test("the curve goes through every sieve exactly", () => {
    fc.assert(
      fc.property(
        anyFractions.map((f) => gradedOf(f)),
        (grading) => {
          for (const row of grading.rows.slice(0, -1)) expect(at(grading, row.apertureUm)).toBe(row.passingPct);
        },
      ),
    );
  });

  test("the curve is continuous at the sieves", () => {
    fc.assert(
      fc.property(
        anyFractions.map((f) => gradedOf(f)),
        (grading) => {
          for (const row of grading.rows.slice(1, -1)) {
            expectNear(at(grading, row.apertureUm * (1 + 1e-15)), row.passingPct, 0, 1e-6);
          }
        },
      ),
    );
  });

  test("passing at a percentile is that percentile's %", () => {
    fc.assert(
      fc.property(
        anyFractions.map((f) => gradedOf(f)),
        share,
        (grading, way) => {
          const { lowestPct, highestPct } = ends(grading);
          const pct = lowestPct + way * (highestPct - lowestPct);
          fc.pre(pct > 0);
          const sizeUm = numberOf(percentileUm(grading, pct, interpolation));
          expectNear(at(grading, sizeUm), pct, 1e-7, 1e-8);
        },
      ),
    );
  });

  test("the percentile of passing at x is x where the curve strictly rises", () => {
    fc.assert(
      fc.property(
        risingFractions.map((f) => gradedOf(f)),
        share,
        (grading, way) => {
          const um = sizeAt(grading, way);
          const pct = at(grading, um);
          const found = numberOf(percentileUm(grading, pct, interpolation));
          // A digit of passing % is worth the more size the flatter the curve is: allow for what 1e-10 % moves it.
          const slope =
            (at(grading, sizeAt(grading, Math.min(1, way + 1e-5))) - at(grading, sizeAt(grading, way * (1 - 1e-5)))) /
            2e-5;
          fc.pre(slope > 1e-3);
          expectNear(found, um, 1e-9, (um * 1e-10) / slope);
        },
      ),
    );
  });

  test("sizes times a constant scale every percentile by it", () => {
    fc.assert(
      fc.property(anyFractions, share, fc.constantFrom(1e-3, 0.7, 25.4, 1000), (fractions, way, factor) => {
        const grading = gradedOf(fractions);
        const scaled = gradedOf(fractions.map((f) => ({ ...f, apertureUm: f.apertureUm * factor })));
        const { lowestPct, highestPct } = ends(grading);
        const pct = lowestPct + way * (highestPct - lowestPct);
        fc.pre(pct > 0 && highestPct - pct > 1e-6);
        const sizeUm = numberOf(percentileUm(grading, pct, interpolation));
        expectNear(numberOf(percentileUm(scaled, pct, interpolation)), sizeUm * factor, 1e-6);
      }),
    );
  });

  test("beyond the sieves there is always a reason, never a number", () => {
    fc.assert(
      fc.property(
        anyFractions.map((f) => gradedOf(f)),
        fc.double({ min: 1e-9, max: 1, noNaN: true }),
        (grading, off) => {
          const { finestUm, coarsestUm, lowestPct, highestPct } = ends(grading);
          expect(passingAt(grading, coarsestUm * (1 + off), interpolation).determinable).toBe(false);
          expect(passingAt(grading, finestUm * (1 - off), interpolation).determinable).toBe(false);
          if (lowestPct > 1e-3)
            expect(percentileUm(grading, lowestPct * 0.999, interpolation).determinable).toBe(false);
          if (highestPct < 99.9)
            expect(percentileUm(grading, highestPct + 0.05, interpolation).determinable).toBe(false);
        },
      ),
    );
  });
});

test("splitting a class at its interpolated passing changes no log-linear percentile", () => {
  fc.assert(
    fc.property(risingFractions, share, inside, (fractions, way, pctWay) => {
      const grading = gradedOf(fractions);
      const um = sizeAt(grading, way);
      fc.pre(!grading.rows.some((row) => Math.abs(row.apertureUm / um - 1) < 1e-6));
      const next = grading.rows.find((row) => row.apertureUm < um);
      const finerG =
        ((numberOf(passingAt(grading, um, "log-linear")) - (next?.passingPct ?? 0)) / 100) * grading.totalG;
      const split = gradedOf([
        ...fractions.map((f) => (f.apertureUm === next?.apertureUm ? { ...f, netG: Math.max(0, finerG) } : f)),
        { apertureUm: um, emptyG: null, fullG: null, netG: Math.max(0, (next?.netG ?? 0) - finerG) },
      ]);
      const { lowestPct, highestPct } = ends(grading);
      const pct = lowestPct + pctWay * (highestPct - lowestPct);
      const before = percentileUm(grading, pct, "log-linear");
      expectNear(numberOf(percentileUm(split, pct, "log-linear")), numberOf(before), 1e-6);
    }),
  );
});

test("every interpolation agrees at the sieves", () => {
  fc.assert(
    fc.property(
      anyFractions.map((f) => gradedOf(f)),
      anyInterpolation,
      (grading, interpolation) => {
        for (const row of grading.rows.slice(0, -1)) {
          if (row.passingPct === 0) continue;
          const reached = grading.rows.findLast((r) => r.apertureUm > 0 && r.passingPct >= row.passingPct);
          expect(numberOf(percentileUm(grading, row.passingPct, interpolation))).toBe(reached?.apertureUm);
        }
      },
    ),
  );
});
