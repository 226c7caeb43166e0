import { describe, expect, test } from "vitest";
import { describeAperture } from "../../src/series/describe.ts";
import { apertureOf, notesOn } from "../../src/series/designation.ts";
import { olderOpening } from "../../src/series/table.ts";
import { toleranceByFormula } from "../../src/series/tolerance.ts";
import limits from "./examples/sieve-limits.json" with { type: "json" };

const LETTERS: Record<string, "maxUm" | "meanUm" | "intermediateUm"> = { X: "maxUm", Y: "meanUm", Z: "intermediateUm" };

describe("limits printed in the European Pharmacopoeia 8.0, Table 2.1.4.-1 (seen)", () => {
  test.each(limits.rows)(
    "$limit of $apertureUm um is $printedUm um, by the formula within its step of 10 um",
    (row) => {
      const key = LETTERS[row.limit] ?? "meanUm";
      const byFormula = toleranceByFormula(row.apertureUm)?.[key] ?? 0;
      expect(Math.abs(byFormula - row.printedUm)).toBeLessThanOrEqual(5);
    },
  );

  test.each(limits.rows)("$limit of $apertureUm um is told as printed", (row) => {
    const told = describeAperture(row.apertureUm);
    const shown = { X: told.maxDeviationUm, Y: told.meanToleranceUm, Z: told.intermediateDeviationUm };
    expect(shown[row.limit as "X" | "Y" | "Z"]).toBe(row.printedUm);
  });
});

describe("limits of ASTM E11 (memory), three significant digits for Y, two or three for X", () => {
  const halfOfLastDigit = (figure: number): number => {
    const digits = String(figure).replace(".", "").replace(/0+$/, "").length;
    return 0.5001 * 10 ** (Math.floor(Math.log10(figure)) - digits + 1);
  };

  test.each(limits.recalled.rows)("Y and X of $apertureUm um come from the formula", (row) => {
    const tolerance = toleranceByFormula(row.apertureUm);
    expect(Math.abs((tolerance?.meanUm ?? 0) - row.meanUm)).toBeLessThanOrEqual(halfOfLastDigit(row.meanUm));
    expect(Math.abs((tolerance?.maxUm ?? 0) - row.maxUm)).toBeLessThanOrEqual(halfOfLastDigit(row.maxUm));
  });
});

describe("limits worked out by another program (generated)", () => {
  test.each(limits.worked.rows)("Y, X and Z of $apertureUm um agree to 0.05 um", (row) => {
    const tolerance = toleranceByFormula(row.apertureUm);
    for (const key of ["meanUm", "maxUm", "intermediateUm"] as const)
      expect(Math.abs((tolerance?.[key] ?? 0) - row[key]), key).toBeLessThanOrEqual(0.0501);
  });
});

describe("WHO International Pharmacopoeia, Table 2 (seen)", () => {
  test.each(limits.openArea.rows)("an open area of $openAreaPct % goes with our wire of $apertureUm um", (row) => {
    const wireUm = describeAperture(row.apertureUm).wireUm ?? 0;
    expect(wireUm).toBe(row.wireUm);
    const openPct = 100 * (row.apertureUm / (row.apertureUm + wireUm)) ** 2;
    expect(Math.abs(openPct - row.openAreaPct)).toBeLessThan(1);
  });
});

describe("sieve numbers of the 1970 report on the fineness of feed (openings seen)", () => {
  test.each(limits.older.rows)("No. $number was $olderUm um and is $todayUm um today", (row) => {
    expect(apertureOf(`No. ${row.number}`)).toEqual({ ok: true, value: row.todayUm });
    expect(apertureOf(`${row.olderUm} um`)).toEqual({ ok: true, value: row.olderUm });
    if (row.olderUm === row.todayUm) return expect(olderOpening(row.olderUm)).toBeUndefined();
    expect(olderOpening(row.olderUm)).toMatchObject({ number: row.number, apertureUm: row.todayUm });
    expect(notesOn(row.olderUm)[0]).toContain(`No. ${row.number}`);
  });
});
