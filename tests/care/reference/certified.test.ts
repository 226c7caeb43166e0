import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { certifiedAt, certifiedCurve, certifiedSizeUm } from "../../../src/care/reference/certified.ts";
import type { ReferenceMaterial } from "../../../src/record/care.ts";

const material = (
  points: readonly (readonly [number, number, number])[],
  coverageFactor?: number,
): ReferenceMaterial => ({
  schema: "sievewright.referenceMaterial/1",
  code: "INV",
  name: "invented beads",
  certificate: { day: "2026-01-08", laboratory: "Invented Metrology" },
  points: points.map(([apertureUm, passingPct, expandedPct]) => ({ apertureUm, passingPct, expandedPct })),
  ...(coverageFactor === undefined ? {} : { coverageFactor }),
});

/** Any certificate: two to ten points, coarsest first, rising by at least half a percent from point to point. */
const anyMaterial = fc
  .array(
    fc.record({
      ratio: fc.double({ min: 1.05, max: 2, noNaN: true }),
      rise: fc.double({ min: 0.5, max: 9, noNaN: true }),
    }),
    {
      minLength: 2,
      maxLength: 10,
    },
  )
  .map((steps) => {
    let [um, pct] = [50, 1];
    const rising = steps.map(({ ratio, rise }) => {
      um *= ratio;
      pct += rise;
      return [um, pct, 0.5] as const;
    });
    return material(rising.toReversed());
  });

describe("any certified curve", () => {
  test("rises from point to point and stays between its neighbours", () =>
    fc.assert(
      fc.property(anyMaterial, fc.double({ min: 0, max: 1, noNaN: true }), (beads, share) => {
        const curve = certifiedCurve(beads);
        const [fine = 0, coarse = 0] = [curve.passing.apertureUm[0], curve.passing.apertureUm.at(-1)];
        const um = fine * (coarse / fine) ** (0.999 * share);
        const here = certifiedAt(curve, um)?.passingPct ?? Number.NaN;
        const next = certifiedAt(curve, um * (coarse / fine) ** 0.001)?.passingPct ?? 100;
        expect(here).toBeGreaterThanOrEqual((curve.passing.passingPct[0] ?? 0) - 1e-9);
        expect(next).toBeGreaterThanOrEqual(here - 1e-9);
      }),
    ));

  test("gives its own points back exactly, both ways", () =>
    fc.assert(
      fc.property(anyMaterial, (beads) => {
        const curve = certifiedCurve(beads);
        for (const { apertureUm, passingPct, expandedPct } of beads.points) {
          expect(certifiedAt(curve, apertureUm)).toEqual({ passingPct, expandedPct });
          expect(certifiedSizeUm(curve, passingPct)).toBe(apertureUm);
        }
      }),
    ));

  test("says nothing a hair beyond its ends", () =>
    fc.assert(
      fc.property(anyMaterial, (beads) => {
        const curve = certifiedCurve(beads);
        const [top, bottom] = [beads.points[0], beads.points.at(-1)];
        expect(certifiedAt(curve, (top?.apertureUm ?? 0) * 1.0001)).toBeNull();
        expect(certifiedAt(curve, (bottom?.apertureUm ?? 0) * 0.9999)).toBeNull();
        expect(certifiedSizeUm(curve, (top?.passingPct ?? 0) + 0.001)).toBeNull();
        expect(certifiedSizeUm(curve, (bottom?.passingPct ?? 0) - 0.001)).toBeNull();
      }),
    ));
});

describe("a certificate with a plateau", () => {
  const flat = certifiedCurve(
    material([
      [800, 90, 1],
      [700, 50, 1],
      [600, 50, 1],
      [500, 10, 1],
    ]),
  );

  test("gives the smallest size that passes as much", () => expect(certifiedSizeUm(flat, 50)).toBe(600));
  test("stays flat between its points", () => expect(certifiedAt(flat, 650)?.passingPct).toBe(50));
});

test.each([
  [undefined, 1.5],
  [2, 1.5],
  [1, 3],
  [3, 1],
])("an uncertainty of 1.5 %% with coverage %s is %d %% with k = 2", (coverage, expandedPct) => {
  const curve = certifiedCurve(
    material(
      [
        [800, 90, 1.5],
        [600, 40, 1.5],
      ],
      coverage,
    ),
  );
  expect(certifiedAt(curve, 800)?.expandedPct).toBeCloseTo(expandedPct, 12);
});
