import { describe, expect, test } from "vitest";
import { sievesPage } from "../../src/report/sievesPage.ts";
import { describeAperture } from "../../src/series/describe.ts";
import { STANDARD_APERTURES, standardAperture } from "../../src/series/table.ts";
import { toleranceByFormula } from "../../src/series/tolerance.ts";

const page = (apertureUm: number, width = 80) => sievesPage(describeAperture(apertureUm), width);
const rowOf = (text: string, label: string) => text.split("\n").find((line) => line.startsWith(label)) ?? "";

describe("the page of an aperture", () => {
  test("says of each of its figures how well it is founded, as the table has it", () => {
    for (const { apertureUm, us, wire } of STANDARD_APERTURES) {
      const words = { seen: "seen", memory: "recalled" } as const;
      const text = page(apertureUm);
      if (us) expect(rowOf(text, "  US designation")).toContain(`${words[us.status]}: `);
      expect(rowOf(text, "  wire")).toContain(`${words[wire.status]}: `);
      expect(rowOf(text, "  series")).toContain("recalled: ");
    }
  });

  test("has a row of limits for each founding there is, and none that there isn't", () => {
    for (const { apertureUm, tabulated, recalled } of STANDARD_APERTURES) {
      const text = page(apertureUm);
      expect(rowOf(text, "by formula") !== "").toBe(toleranceByFormula(apertureUm) !== undefined);
      expect(rowOf(text, "by table") !== "").toBe(tabulated !== undefined);
      expect(rowOf(text, "ASTM E11") !== "").toBe(recalled !== undefined);
    }
  });

  test("shows the formula's limits to three digits and printed ones as printed", () => {
    const text = page(2000);
    const { meanUm, maxUm } = toleranceByFormula(2000) ?? { meanUm: 0, maxUm: 0 };
    expect(rowOf(text, "by formula")).toContain(`+/- ${Number(meanUm.toPrecision(3))} `);
    expect(rowOf(text, "by formula")).toContain(`+ ${Number(maxUm.toPrecision(3))} `);
    expect(rowOf(text, "by table")).toMatch(/\+\/- 70 +\+ 230 +\+ 150 +seen$/);
    expect(text.replace(/\s+/g, " ")).toContain("printed to 10 um");
  });

  test("leaves a dash where the recalled limits have no band", () =>
    expect(rowOf(page(600), "ASTM E11")).toMatch(/\+\/- 21\.2 +\+ 101 +– +recalled$/));

  test("tells the allowed wires where they are known", () => {
    const known = STANDARD_APERTURES.find((row) => row.wireLimits !== undefined);
    const limits = known?.wireLimits;
    if (known && limits)
      expect(rowOf(page(known.apertureUm), "wire")).toContain(`, allowed ${limits.fromUm} to ${limits.toUm} um`);
    const unknown = STANDARD_APERTURES.find((row) => row.wireLimits === undefined);
    expect(unknown).toBeDefined();
    expect(rowOf(page(unknown?.apertureUm ?? 0), "wire")).not.toContain("allowed");
  });

  test("always ends with the advice to compare, as the table may be recalled", () => {
    for (const um of [20, 600, 613, 125_000, 200_000]) {
      expect(page(um).trimEnd().replace(/\s+/g, " ")).toMatch(
        /compare with your copy of the standard before you judge a sieve\.$/,
      );
    }
  });

  test("keeps to its width, whatever the aperture", () => {
    for (const width of [60, 80, 100])
      for (const { apertureUm } of STANDARD_APERTURES)
        for (const line of page(apertureUm, width).split("\n")) expect(line.length).toBeLessThanOrEqual(width);
  });

  test("of no standard aperture has dashes for its names and says so", () => {
    expect(standardAperture(613)).toBeUndefined();
    expect(rowOf(page(613), "designations")).toMatch(/–$/);
    expect(page(613)).toContain("note: 613 um is no aperture of ISO 565 or ASTM E11");
  });
});
