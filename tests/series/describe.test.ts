import { describe, expect, test } from "vitest";
import { describeAperture, describeDesignation } from "../../src/series/describe.ts";
import { STANDARD_APERTURES } from "../../src/series/table.ts";
import { toleranceByFormula } from "../../src/series/tolerance.ts";

describe("a standard aperture", () => {
  test("is described whole: names, series, limits, wire, standing of each figure", () => {
    const { byFormula, meanToleranceUm, maxDeviationUm, intermediateDeviationUm, ...rest } = describeAperture(600);
    expect(rest).toEqual({
      apertureUm: 600,
      designations: ["600 um", "No. 30"],
      series: ["ISO 565 R40/3", "ASTM E11"],
      figures: "computed",
      wireUm: 400,
      founded: [
        { figure: "series", standing: "memory", source: "ISO 565, recalled" },
        {
          figure: "US designation",
          standing: "seen",
          source: "ASTM C33, grading of fine aggregate, as reproduced in a civil engineering article",
        },
        { figure: "aperture limits", standing: "computed", source: "formulas of ISO 3310-1, recalled" },
        { figure: "wire", standing: "memory", source: "recalled, not seen" },
      ],
      notes: [],
    });
    expect(meanToleranceUm).toBeCloseTo(21.2, 1);
    expect(maxDeviationUm).toBeCloseTo(100.6, 1);
    expect(intermediateDeviationUm).toBeCloseTo(60.9, 1);
    expect(byFormula).toEqual(toleranceByFormula(600));
  });

  test.each([
    [125_000, ["125 mm", "5 in."]],
    [9500, ["9.5 mm", "3/8 in."]],
    [4750, ["4.75 mm", "No. 4"]],
    [1400, ["1.4 mm", "No. 14"]],
    [1000, ["1 mm", "No. 18"]],
    [63, ["63 um", "No. 230"]],
    [400, ["400 um"]],
  ])("%d um is named %j", (apertureUm, names) => expect(describeAperture(apertureUm).designations).toEqual(names));

  test.each([
    [710, ["ISO 565 R20/3", "ISO 565 R20", "ISO 565 R40/3", "ASTM E11"]],
    [400, ["ISO 565 R20"]],
    [850, ["ISO 565 R40/3", "ASTM E11"]],
    [100_000, ["ISO 565 R20", "ASTM E11"]],
    [25, ["ISO 565 R10", "ASTM E11"]],
  ])("%d um belongs to %j", (apertureUm, series) => expect(describeAperture(apertureUm).series).toEqual(series));

  test("shows printed limits where a table was seen, and the formula's beside them", () => {
    const two = describeAperture(2000);
    expect([two.meanToleranceUm, two.maxDeviationUm, two.intermediateDeviationUm]).toEqual([70, 230, 150]);
    expect(two.figures).toBe("tabulated");
    expect(two.byFormula?.meanUm).toBeCloseTo(65.2, 1);
    expect(two.founded.find((f) => f.figure === "aperture limits")).toEqual({
      figure: "aperture limits",
      standing: "seen",
      source: "European Pharmacopoeia 8.0, chapter 2.1.4 Sieves, Table 2.1.4.-1 (up to and with the 2000 um row)",
    });
  });

  test("is tabulated exactly where the table holds printed limits", () => {
    const tabulated = STANDARD_APERTURES.filter((a) => describeAperture(a.apertureUm).figures === "tabulated");
    expect(tabulated.map((a) => a.apertureUm)).toEqual([11_200, 8000, 5600, 4000, 2800, 2000]);
  });

  test("always has limits and a wire", () => {
    for (const { apertureUm, wire } of STANDARD_APERTURES) {
      const described = describeAperture(apertureUm);
      expect(described.meanToleranceUm, `${apertureUm}`).toBeGreaterThan(0);
      expect(described.maxDeviationUm ?? 0).toBeGreaterThan(described.meanToleranceUm ?? 0);
      expect(described.wireUm).toBe(wire.um);
      expect(described.notes).toEqual([]);
    }
  });
});

describe("an aperture of no standard", () => {
  test("has no name, series or wire, but limits by formula and a note", () => {
    const odd = describeAperture(605);
    expect(odd).toMatchObject({ designations: [], series: [], wireUm: null, figures: "computed", founded: [] });
    expect(odd.meanToleranceUm).toBeGreaterThan(21.2);
    expect(odd.notes).toEqual(["605 um is no aperture of ISO 565 or ASTM E11"]);
  });

  test.each([10, 19.9, 126_000])("of %d um has no limits and says so", (apertureUm) => {
    const odd = describeAperture(apertureUm);
    expect([odd.meanToleranceUm, odd.maxDeviationUm, odd.intermediateDeviationUm, odd.byFormula]).toEqual([
      null,
      null,
      null,
      null,
    ]);
    expect(odd.notes).toContain("no aperture limits outside 20 um to 125 mm");
  });
});

describe("a typed name", () => {
  test("is described with the notes of its reading first", () => {
    const read = describeDesignation("No. 30");
    expect(read).toMatchObject({ ok: true, value: { apertureUm: 600, designations: ["600 um", "No. 30"] } });
    expect(read.ok && read.value.notes).toEqual(["older documents give No. 30 an opening of 590 um"]);
  });

  test("says each note once", () => {
    const read = describeDesignation("590");
    expect(read.ok && read.value.notes).toEqual([
      "a bare number is read as um",
      "590 um is the older opening of No. 30, today 600 um: old documents map by number",
    ]);
  });

  test("that names no sieve is refused", () =>
    expect(describeDesignation("No. 31")).toEqual({ ok: false, reason: "ASTM E11 has no sieve No. 31" }));
});
