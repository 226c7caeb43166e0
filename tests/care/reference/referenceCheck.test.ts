import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { certifiedAt, certifiedCurve, certifiedSizeUm } from "../../../src/care/reference/certified.ts";
import { crossTestSpreadPct, enNumber, referenceCheck, zScore } from "../../../src/care/reference/referenceCheck.ts";
import type { ReferenceCheck, ReferenceMaterial } from "../../../src/record/care.ts";
import { numberOf, reasonOf } from "../../grading/stack.ts";
import { chanceFrom } from "../simulation/chance.ts";
import { MATERIALS } from "../simulation/materials.ts";
import { stayingOn } from "../simulation/sieving.ts";

const material = (
  points: [number, number][],
  expandedPct = 1,
  more: Partial<ReferenceMaterial> = {},
): ReferenceMaterial => ({
  schema: "sievewright.referenceMaterial/1",
  code: "INV-BEADS",
  name: "invented beads",
  certificate: { day: "2026-01-08", laboratory: "Invented Metrology" },
  points: points.map(([apertureUm, passingPct]) => ({ apertureUm, passingPct, expandedPct })),
  ...more,
});
const beads = material([
  [800, 97],
  [710, 82],
  [600, 51],
  [500, 22],
  [425, 6],
]);
const check = (found: ReferenceCheck["found"], of = beads): ReferenceCheck => ({
  did: "reference check",
  material: of,
  found,
});

describe("the certified curve", () => {
  const curve = certifiedCurve(beads);

  test("is the certificate at its points and monotone between", () => {
    expect(certifiedAt(curve, 600)).toEqual({ passingPct: 51, expandedPct: 1 });
    const between = certifiedAt(curve, 650)?.passingPct ?? 0;
    expect(between).toBeGreaterThan(51);
    expect(between).toBeLessThan(82);
  });

  test("ends where the certificate ends", () => {
    expect(certifiedAt(curve, 425)?.passingPct).toBe(6);
    expect(certifiedAt(curve, 424)).toBeNull();
    expect(certifiedAt(curve, 801)).toBeNull();
    expect(certifiedSizeUm(curve, 5.9)).toBeNull();
    expect(certifiedSizeUm(curve, 97.1)).toBeNull();
    expect(certifiedSizeUm(curve, 6)).toBe(425);
  });

  test("size and passing undo each other", () =>
    fc.assert(
      fc.property(fc.double({ min: 6, max: 97, noNaN: true }), (pct) => {
        expect(certifiedAt(curve, certifiedSizeUm(curve, pct) ?? 0)?.passingPct).toBeCloseTo(pct, 8);
      }),
    ));

  test("brings uncertainties of another coverage to k = 2", () => {
    const three = certifiedCurve(
      material(
        [
          [710, 82],
          [600, 51],
        ],
        3,
        { coverageFactor: 3 },
      ),
    );
    expect(certifiedAt(three, 600)?.expandedPct).toBe(2);
  });

  test("between two points is as unsure as the worse of them", () => {
    const uneven = certifiedCurve({ ...beads, points: beads.points.map((p, i) => ({ ...p, expandedPct: i })) });
    expect(certifiedAt(uneven, 650)?.expandedPct).toBe(2);
  });
});

describe("En number and z score", () => {
  test.each([
    [52, 50, 3, 4, 0.4],
    [45, 50, 3, 4, -1],
    [50, 50, 0, 4, 0],
  ])("En of %d against %d with U %d and %d is %d", (x, ref, u, v, en) =>
    expect(numberOf(enNumber(x, ref, u, v))).toBeCloseTo(en, 12),
  );

  test("have no number without any uncertainty", () => {
    expect(reasonOf(enNumber(52, 50, 0, 0))).toMatch(/uncertainty/);
    expect(reasonOf(zScore(52, 50, 0))).toMatch(/above 0/);
  });

  test("the cross-test spread is largest in the middle and none at the ends", () => {
    expect(crossTestSpreadPct(50)).toBe(2.5);
    expect(crossTestSpreadPct(10)).toBeCloseTo(1.5, 12);
    expect(crossTestSpreadPct(0)).toBe(0);
  });
});

describe("a sieve run with a certified material", () => {
  const one = (passingPct: number, expandedPct = 1) =>
    referenceCheck(check([{ apertureUm: 600, serial: "S-0600-1", passingPct, expandedPct }]))[0];

  test("that passes what is certified agrees, and is its nominal size", () => {
    expect(one(51)).toMatchObject({ result: "agrees", certifiedPct: 51 });
    expect(numberOf(one(51)?.effectiveUm ?? { determinable: false, reason: "none" })).toBeCloseTo(600, 6);
  });

  test("that passes more than both uncertainties allow disagrees, and sieves like a wider one", () => {
    const found = one(58);
    expect(found?.result).toBe("disagrees");
    expect(numberOf(found?.en ?? { determinable: false, reason: "none" })).toBeCloseTo(7 / Math.SQRT2, 9);
    expect(found?.text).toMatch(/the 600 um sieve \(S-0600-1\) disagrees \(En 4.95\), sieves like 6\d\d um, beyond Y/);
    expect(found?.fromUm ?? 0).toBeGreaterThan(600);
    expect(found?.toUm ?? 0).toBeGreaterThan(found?.fromUm ?? 0);
  });

  test("that is off by more than two spreads but within U is questionable", () => {
    const found = referenceCheck(check([{ apertureUm: 600, passingPct: 57, expandedPct: 8 }]));
    expect(found[0]?.result).toBe("questionable");
  });

  test("whose aperture the certificate does not reach is not judged, and says so", () => {
    const [found] = referenceCheck(check([{ apertureUm: 1000, passingPct: 99.5 }]));
    expect(found).toMatchObject({ result: "not judged", certifiedPct: null, fromUm: null });
    expect(reasonOf(found?.en ?? { determinable: true, value: 0, unit: "" })).toMatch(/says nothing/);
    expect(found?.text).toMatch(/cannot be judged/);
  });

  test("sieves are told coarsest first", () => {
    const found = [500, 710, 600].map((apertureUm) => ({ apertureUm, passingPct: 50 }));
    expect(referenceCheck(check(found)).map((f) => f.apertureUm)).toEqual([710, 600, 500]);
  });

  test("the effective range holds the estimate and widens with what was found", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 15, max: 85, noNaN: true }),
        fc.double({ min: 0.1, max: 4, noNaN: true }),
        (pct, u) => {
          const [narrow, wide] = [one(pct, u), one(pct, u + 1)];
          const sizeUm = numberOf(narrow?.effectiveUm ?? { determinable: false, reason: "none" });
          expect(narrow?.fromUm ?? 0).toBeLessThan(sizeUm);
          expect(narrow?.toUm ?? 1e9).toBeGreaterThan(sizeUm);
          expect(wide?.fromUm ?? 0).toBeLessThan(narrow?.fromUm ?? 0);
          expect(wide?.toUm ?? 1e9).toBeGreaterThan(narrow?.toUm ?? 1e9);
        },
      ),
    ));
});

describe("a screened sand certified on perfect sieves and run on sieves of known error", () => {
  const sand = MATERIALS[1];
  const passingOf = (um: number) =>
    100 * (1 - stayingOn(um, sand.sizesUm).reduce((sum, stay, i) => sum + stay * (sand.shares[i] ?? 0), 0));
  const fine = [1180, 1100, 1000, 925, 850, 780, 710, 650, 600, 550, 500];
  const certified = material(
    fine.map((um) => [um, passingOf(um)]),
    0.5,
  );
  const { normal } = chanceFrom(17);

  test.each([-0.06, -0.03, 0, 0.03, 0.06])(
    "gives an error of %d back within half a percent of the aperture",
    (error) => {
      const offs = [850, 710, 600].map((apertureUm) => {
        const passingPct = passingOf(apertureUm * (1 + error)) + normal(0, 0.15);
        const [found] = referenceCheck(check([{ apertureUm, passingPct, expandedPct: 0.6 }], certified));
        return numberOf(found?.effectiveUm ?? { determinable: false, reason: "none" }) / apertureUm - 1;
      });
      for (const off of offs) expect(Math.abs(off - error)).toBeLessThan(0.005);
    },
  );
});
