import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { judgeDirection } from "../../../src/care/inspection/direction.ts";
import { aperturesToMeasure, readToUm } from "../../../src/care/inspection/howMany.ts";
import { inspect } from "../../../src/care/inspection/inspect.ts";
import { apertureLimits } from "../../../src/care/inspection/limits.ts";
import type { Inspection } from "../../../src/record/care.ts";
import type { Sieve } from "../../../src/record/sieve.ts";
import { describeAperture } from "../../../src/series/describe.ts";
import { toleranceByFormula } from "../../../src/series/tolerance.ts";
import { numberOf, reasonOf } from "../../grading/stack.ts";

const sieve = (apertureUm: number, more: Partial<Sieve> = {}): Sieve => ({
  schema: "sievewright.sieve/1",
  serial: "S-1",
  apertureUm,
  ...more,
});
const GOOD = { light: "good", wrinkles: "good", tears: "good", solder: "good", seat: "good" } as const;
const inspection = (measured?: Inspection["measured"], looks: Inspection["looks"] = GOOD): Inspection => ({
  did: "inspection",
  serial: "S-1",
  looks,
  ...(measured ? { measured } : {}),
});
const around = (meanUm: number, n = 40) => Array.from({ length: n }, (_, i) => meanUm + (i % 2 === 0 ? 2 : -2));

// ISO 3310-1 by formula at 710 um: Y 24.7, X 112, Z 68; no table of these was seen.
describe("the mean of a 710 um sieve", () => {
  test("within Y is fit, along both directions", () => {
    const found = inspect(sieve(710), inspection({ warpUm: around(720), weftUm: around(705) }));
    expect(found).toMatchObject({ result: "fit", faults: [], missing: [] });
    expect(found.directions.map((d) => d.meanWithinY)).toEqual([true, true]);
    expect(found.directions[0]?.meanUm).toBeCloseTo(720, 9);
  });

  test("beyond Y along one direction is not fit, and which is said", () => {
    const found = inspect(sieve(710), inspection({ warpUm: around(712), weftUm: around(737) }));
    expect(found.result).toBe("not fit");
    expect(found.faults).toEqual([
      "the 710 um sieve (S-1): mean along the weft 737.0 um (+27.0 um), Y allows 24.7 um either way",
    ]);
  });

  test("too small is as wrong as too large", () =>
    expect(inspect(sieve(710), inspection({ warpUm: around(683) })).faults[0]).toMatch(/-27.0 um/));

  test("near Y asks for more apertures, far from it does not", () => {
    expect(inspect(sieve(710), inspection({ warpUm: [730, 738, 729, 739] })).notes.join()).toMatch(
      /near Y along the warp/,
    );
    expect(inspect(sieve(710), inspection({ warpUm: around(712) })).notes.join()).not.toMatch(/near Y/);
  });
});

describe("the largest aperture", () => {
  test("above X is not fit though the mean is right", () => {
    const found = inspect(sieve(710), inspection({ warpUm: [...around(710), 825] }));
    expect(found.faults).toHaveLength(1);
    expect(found.faults[0]).toMatch(/largest along the warp 825.0 um \(\+115.0 um\), X allows \+112/);
  });

  test("at X exactly is fit: limits are inclusive", () => {
    const { maxUm } = toleranceByFormula(710) ?? { maxUm: 0 };
    const { meanUm } = toleranceByFormula(710) ?? { meanUm: 0 };
    expect(inspect(sieve(710), inspection({ warpUm: [...around(710), 710 + maxUm] })).result).toBe("fit");
    expect(inspect(sieve(710), inspection({ warpUm: [710 + meanUm, 710 + meanUm] })).result).toBe("fit");
  });
});

describe("the share above Z", () => {
  const many = [...around(705, 36), 790, 790, 790, 790];

  test("is told always and judged only where the edition judges it", () => {
    const told = inspect(sieve(710), inspection({ warpUm: many }));
    expect(told.directions[0]?.shareAboveZ).toBe(0.1);
    expect(told.result).toBe("fit");
    expect(told.notes.join()).toMatch(/above Z is told and not judged/);
    const judged = inspect(sieve(710), inspection({ warpUm: many }), { judgesZ: true });
    expect(judged.faults[0]).toMatch(/10 % along the warp lie above Z, 6 % may/);
  });

  test("of 6 % is allowed", () => {
    const six = [...around(705, 94), ...Array.from({ length: 6 }, () => 790)];
    expect(inspect(sieve(710), inspection({ warpUm: six }), { judgesZ: true }).result).toBe("fit");
  });
});

describe("the look", () => {
  test.each([
    ["light", /against the light/],
    ["wrinkles", /wrinkled/],
    ["tears", /torn/],
    ["solder", /solder/],
    ["seat", /seat/],
  ] as const)("faulty by %s takes the sieve out, whatever was measured", (look, words) => {
    const found = inspect(sieve(710), inspection({ warpUm: around(710) }, { ...GOOD, [look]: "faulty" }));
    expect(found.result).toBe("not fit");
    expect(found.faults[0]).toMatch(words);
  });

  test("not taken is missing, and says which", () => {
    const found = inspect(sieve(710), inspection(undefined, { light: "good", tears: "good" }));
    expect(found.result).toBe("incomplete");
    expect(found.missing).toEqual(["not looked at: wrinkles", "not looked at: solder", "not looked at: seat"]);
  });

  test("alone is enough to be fit, and that no aperture was measured is said", () =>
    expect(inspect(sieve(710), inspection())).toMatchObject({
      result: "fit",
      directions: [],
      notes: ["no aperture was measured: judged by eye alone"],
    }));
});

describe("how well the limits are founded", () => {
  test("is said: printed and seen where a table was seen", () => {
    const found = inspect(sieve(2000), inspection({ warpUm: around(2010), weftUm: around(2010) }));
    expect(found.limits).toMatchObject({ meanUm: 70, maxUm: 230, intermediateUm: 150, figures: "tabulated" });
    expect(found.notes[0]).toMatch(/limits seen: .*Pharmacopoeia.*edition in force decides/);
  });

  test("is said: computed by recalled formulas elsewhere", () => {
    const found = inspect(sieve(710), inspection({ warpUm: around(710), weftUm: around(710) }));
    expect(found.limits?.figures).toBe("computed");
    expect(found.notes[0]).toMatch(/computed: formulas of ISO 3310-1, recalled/);
  });

  test("no limits of woven wire are put on a plate or an electroformed sheet, nor is it called fit", () => {
    for (const cloth of ["perforated plate", "electroformed"] as const) {
      const found = inspect(sieve(4000, { cloth }), inspection({ warpUm: around(4900) }));
      expect(found).toMatchObject({ limits: null, result: "incomplete" });
      expect(found.missing).toEqual(["the apertures were measured and not judged"]);
      expect(found.directions[0]).toMatchObject({ meanWithinY: null, largestWithinX: null, shareAboveZ: null });
      expect(found.notes[0]).toMatch(/no limits are known here/);
    }
  });

  test("outside 20 um to 125 mm there are none", () =>
    expect(apertureLimits(10, "woven wire")).toEqual({ reason: expect.stringMatching(/20 um to 125 mm/) }));
});

describe("how many apertures are measured", () => {
  test("all of them up to 20, and none is invented above", () => {
    expect(numberOf(aperturesToMeasure(20))).toBe(20);
    expect(reasonOf(aperturesToMeasure(21))).toMatch(/edition in force/);
  });

  test("fewer than all of 16 leave the inspection incomplete", () => {
    const measured = { warpUm: around(50000, 12), weftUm: around(50000, 16), inCloth: 16 };
    const found = inspect(sieve(50000), inspection(measured));
    expect(found.missing).toEqual(["12 of 16 measured along the warp"]);
    expect(found.result).toBe("incomplete");
  });

  test("they are read to 1 um or a quarter of Y, whichever is larger", () => {
    expect(numberOf(readToUm(45))).toBe(1);
    expect(numberOf(readToUm(710))).toBeCloseTo((describeAperture(710).meanToleranceUm ?? 0) / 4, 9);
    expect(reasonOf(readToUm(5))).toMatch(/no Y/);
  });
});

describe("one direction", () => {
  const limits = { meanUm: 25, maxUm: 112, intermediateUm: 68, figures: "computed", founded: "" } as const;
  const apertures = fc.array(fc.double({ min: 600, max: 900, noNaN: true }), { minLength: 2, maxLength: 50 });

  test("of a single aperture has no scatter and no range, and is near Y until more are measured", () =>
    expect(judgeDirection("warp", [720], 710, limits)).toMatchObject({
      measured: 1,
      deviationUm: null,
      meanRangeUm: null,
      nearY: true,
    }));

  test("judges mean and largest for themselves, whatever the apertures", () =>
    fc.assert(
      fc.property(apertures, (um) => {
        const found = judgeDirection("warp", um, 710, limits);
        expect(found.meanWithinY).toBe(Math.abs(um.reduce((a, b) => a + b, 0) / um.length - 710) <= 25);
        expect(found.largestWithinX).toBe(um.every((one) => one <= 822));
        expect(found.shareAboveZ).toBe(um.filter((one) => one > 778).length / um.length);
      }),
    ));

  test("the range of a mean is t s / root n: 2.262 s / root 10 for ten", () => {
    const ten = [700, 702, 704, 706, 708, 712, 714, 716, 718, 720];
    const found = judgeDirection("weft", ten, 710, limits);
    expect(found.meanRangeUm).toBeCloseTo((2.26216 * (found.deviationUm ?? 0)) / Math.sqrt(10), 4);
  });
});
