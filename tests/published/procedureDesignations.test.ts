import { describe, expect, test } from "vitest";
import { describeAperture } from "../../src/series/describe.ts";
import { apertureOf } from "../../src/series/designation.ts";
import { nextCoarserPrincipalUm } from "../../src/series/principal.ts";
import { standardAperture } from "../../src/series/table.ts";

/** ASTM E11 alternative designations: `seen` in the publication that the table names, else from memory. */
describe("ASTM E11", () => {
  test.each([
    ["5 in.", 125000, "seen"],
    ["4.24 in.", 106000, "seen"],
    ["4 in.", 100000, "seen"],
    ["3 1/2 in.", 90000, "seen"],
    ["3 in.", 75000, "seen"],
    ["2 1/2 in.", 63000, "seen"],
    ["2.12 in.", 53000, "seen"],
    ["2 in.", 50000, "seen"],
    ["1 3/4 in.", 45000, "seen"],
    ["1 1/2 in.", 37500, "seen"],
    ["1 1/4 in.", 31500, "seen"],
    ["1.06 in.", 26500, "seen"],
    ["1 in.", 25000, "seen"],
    ["7/8 in.", 22400, "memory"],
    ["3/4 in.", 19000, "seen"],
    ["5/8 in.", 16000, "seen"],
    ["0.530 in.", 13200, "memory"],
    ["1/2 in.", 12500, "seen"],
    ["7/16 in.", 11200, "seen"],
    ["3/8 in.", 9500, "seen"],
    ["5/16 in.", 8000, "seen"],
    ["0.265 in.", 6700, "memory"],
    ["1/4 in.", 6300, "memory"],
    ["No. 3 1/2", 5600, "memory"],
    ["No. 4", 4750, "seen"],
    ["No. 5", 4000, "memory"],
    ["No. 6", 3350, "memory"],
    ["No. 7", 2800, "memory"],
    ["No. 8", 2360, "seen"],
    ["No. 10", 2000, "seen"],
    ["No. 12", 1700, "seen"],
    ["No. 14", 1400, "seen"],
    ["No. 16", 1180, "seen"],
    ["No. 18", 1000, "memory"],
    ["No. 20", 850, "seen"],
    ["No. 25", 710, "seen"],
    ["No. 30", 600, "seen"],
    ["No. 35", 500, "memory"],
    ["No. 40", 425, "seen"],
    ["No. 45", 355, "seen"],
    ["No. 50", 300, "seen"],
    ["No. 60", 250, "seen"],
    ["No. 70", 212, "seen"],
    ["No. 80", 180, "memory"],
    ["No. 100", 150, "seen"],
    ["No. 120", 125, "seen"],
    ["No. 140", 106, "seen"],
    ["No. 170", 90, "memory"],
    ["No. 200", 75, "seen"],
    ["No. 230", 63, "memory"],
    ["No. 270", 53, "seen"],
    ["No. 325", 45, "seen"],
    ["No. 400", 38, "seen"],
    ["No. 450", 32, "memory"],
    ["No. 500", 25, "memory"],
    ["No. 635", 20, "seen"],
  ] as const)("%s is %d um (%s), both ways", (name, apertureUm, standing) => {
    expect(apertureOf(name)).toEqual({ ok: true, value: apertureUm });
    const described = describeAperture(apertureUm);
    expect(described.designations).toContain(name);
    expect(described.series).toContain("ASTM E11");
    expect(described.founded.find((f) => f.figure === "US designation")?.standing).toBe(standing);
  });

  test.each([400, 560, 630, 800, 900, 1250, 1600, 2500, 3150, 7100, 10_000, 14_000, 20_000, 28_000, 40_000, 56_000])(
    "%d um of R20 has no designation there",
    (apertureUm) => {
      expect(describeAperture(apertureUm).series).toEqual(["ISO 565 R20"]);
      expect(standardAperture(apertureUm)?.us).toBeUndefined();
    },
  );
});

/** ISO 565, principal series R20/3 (memory). */
describe("ISO 565", () => {
  const principalMm = [
    125, 90, 63, 45, 31.5, 22.4, 16, 11.2, 8, 5.6, 4, 2.8, 2, 1.4, 1, 0.71, 0.5, 0.355, 0.25, 0.18, 0.125, 0.09, 0.063,
    0.045,
  ];

  test.each(principalMm)("%d mm is a principal size, in all three series", (mm) =>
    expect(describeAperture(mm * 1000).series.slice(0, 3)).toEqual(["ISO 565 R20/3", "ISO 565 R20", "ISO 565 R40/3"]),
  );

  test.each(principalMm.slice(1).map((mm, i) => [mm, principalMm[i]!]))("above %d mm comes %d mm", (mm, coarserMm) =>
    expect(nextCoarserPrincipalUm(mm * 1000)).toBe(coarserMm * 1000),
  );
});

/** EN 933-2 basic set and its additions (memory); perforated plate from 4 mm up, cloth down to 63 um (seen). */
describe("EN 933-2", () => {
  test.each([
    ["basic set", [0.063, 0.125, 0.25, 0.5, 1, 2, 4, 8, 16, 31.5, 63, 125]],
    ["set 1", [5.6, 11.2, 22.4, 45]],
    ["set 2", [6.3, 10, 12.5, 14, 20, 40]],
  ])("%s: every aperture is one of ISO 565", (_, sizesMm) => {
    for (const mm of sizesMm) expect(describeAperture(mm * 1000).series[0], `${mm} mm`).toMatch(/^ISO 565/);
  });
});

/** Sieves of the ASBC grist set: No. 14, 30 and 60 at 1.4, 0.6 and 0.25 mm (seen). */
describe("ASBC grist set", () => {
  test.each([
    ["No. 14", 1400],
    ["No. 30", 600],
    ["No. 60", 250],
  ])("%s is %d um", (name, apertureUm) => expect(apertureOf(name)).toEqual({ ok: true, value: apertureUm }));
});

/** ASTM C136 fineness-modulus sieves (seen) by their US names (seen or memory in the table). */
describe("the fineness-modulus sieves of ASTM C136", () => {
  test.each([
    ["No. 100", "150 um"],
    ["No. 50", "300 um"],
    ["No. 30", "600 um"],
    ["No. 16", "1.18 mm"],
    ["No. 8", "2.36 mm"],
    ["No. 4", "4.75 mm"],
    ["3/8 in.", "9.5 mm"],
    ["3/4 in.", "19.0 mm"],
    ["1 1/2 in.", "37.5 mm"],
  ])("%s and %s are the same sieve", (usName, metric) => expect(apertureOf(usName)).toEqual(apertureOf(metric)));
});
