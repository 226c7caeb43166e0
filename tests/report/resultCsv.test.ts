import { parse } from "csv-parse/sync";
import { describe, expect, test } from "vitest";
import { readSheet } from "../../src/record/readSheet.ts";
import { resultCsv } from "../../src/report/resultCsv.ts";
import { assessed } from "./assessed.ts";

const whose = { product: "TH-0510", lot: "4471-B", line: "Dryer 1" };
const csv = (of = whose) => resultCsv(assessed("TH-0510.csv"), of);

describe("the fractions as CSV", () => {
  test("have snake_case headers with the unit last, and every row ends in CRLF", () => {
    const lines = csv().split("\r\n");
    expect(lines[0]).toBe(
      "aperture_um,empty_g,full_g,net_g,retained_pct,coarser_pct,passing_pct,product,lot,line,passing_low_pct,passing_high_pct",
    );
    expect(lines).toHaveLength(8);
    expect(lines.at(-1)).toBe("");
    expect(csv().replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  });

  test("are the assessment's own numbers, unrounded, the pan by its word", () => {
    const rows = parse(csv(), { columns: true }) as Record<string, string>[];
    const { fractions } = assessed("TH-0510.csv");
    expect(rows.map((row) => row.aperture_um)).toEqual(["1400", "1000", "710", "500", "355", "pan"]);
    for (const [i, row] of rows.entries()) {
      expect(Number(row.net_g)).toBe(fractions[i]?.netG);
      expect(Number(row.passing_pct)).toBe(fractions[i]?.passingPct);
      expect(row.lot).toBe("4471-B");
      if (row.aperture_um === "pan") expect([row.passing_low_pct, row.passing_high_pct]).toEqual(["", ""]);
      else expect(Number(row.passing_low_pct)).toBeLessThan(Number(row.passing_high_pct));
    }
  });

  test("leave a cell empty for what was not weighed", () => {
    const text = resultCsv(assessed("aperture_um,net_g\n63,30\npan,10\n"), { product: "", lot: "", line: "" });
    expect(text.split("\r\n")[1]).toMatch(/^63,,,30,75,75,25,,,,16\.\d+,33\.\d+$/);
  });

  test("with their masses columns alone are a weighing sheet again", () => {
    const sheet = csv()
      .split("\r\n")
      .map((row) => row.split(",").slice(0, 3).join(","))
      .join("\n");
    const read = readSheet(new TextEncoder().encode(sheet));
    expect(read.ok && read.value.sheet.weighings).toHaveLength(6);
  });

  test.each(["=1+1", "+1", "-1", "@sum", " =1", "\t=1", "|x", "%x"])(
    "a text %j that would run as a formula is defused",
    (lot) => {
      const [row] = parse(csv({ ...whose, lot }), { columns: true }) as Record<string, string>[];
      expect(row?.lot).toBe(`'${lot}`);
    },
  );

  test.each(['a "b"', "a,b", "a;b", "4471-B"])("a text %j comes through as it is", (lot) => {
    const [row] = parse(csv({ ...whose, lot }), { columns: true }) as Record<string, string>[];
    expect(row?.lot).toBe(lot);
  });
});
