import { parse } from "csv-parse/sync";
import { describe, expect, test } from "vitest";
import { readSheet } from "../../src/record/readSheet.ts";
import { resultCsv } from "../../src/report/resultCsv.ts";
import { run } from "../commands/inProcess.ts";
import { assessed } from "../report/assessed.ts";

const SHEET = "aperture_um,net_g\n500,3.25\n250,0\npan,1.5\n";
const cellsOf = (csv: string): Record<string, string>[] => parse(csv, { columns: true });

/** What a spreadsheet takes for a formula: read from its own manuals, and the list that safety guides give. */
const RUNS = /^[\t\r\n ]*[=+\-@＝＋－＠]|^[\t\r]/;

describe("a table for a spreadsheet", () => {
  test.each([
    "=1+1",
    "+1",
    "-1",
    "@SUM(A1)",
    '=HYPERLINK("http://x.invalid","y")',
    "=cmd|' /C calc'!A0",
    "  =1",
    "＝1+1",
    "－1",
  ])("a text %j is read back as text, whole behind an apostrophe", async (lot) => {
    const { code, out } = await run(["evaluate", "-", "--csv"], {
      stdin: `# lot: "${lot.replaceAll('"', '""')}"\n${SHEET}`,
    });
    expect(code).toBe(0);
    for (const row of cellsOf(out)) {
      expect(row.lot).not.toMatch(RUNS);
      expect([lot, lot.trim()]).toContain(row.lot?.replace(/^'/, ""));
    }
  });

  test.each(["\t=1", "\r=1", "\t1", "\r\n1", "\n=1"])("a text that begins with %j, too", (lot) => {
    const [row] = cellsOf(resultCsv(assessed("TH-0510.csv"), { product: lot, lot, line: lot }));
    expect([row?.product, row?.lot, row?.line]).toEqual([`'${lot}`, `'${lot}`, `'${lot}`]);
  });

  test("numbers stay numbers, to the last digit", async () => {
    const { out } = await run(["evaluate", "-", "--csv"], { stdin: `# lot: =1\n# line: -2\n${SHEET}` });
    const rows = cellsOf(out);
    const json = JSON.parse((await run(["evaluate", "-", "--json"], { stdin: SHEET })).out);
    expect(rows.map((row) => [row.net_g, row.retained_pct, row.passing_pct].map(Number))).toEqual(
      json.fractions.map((f: Record<string, number>) => [f.netG, f.retainedPct, f.passingPct]),
    );
    for (const row of rows)
      for (const [name, cell] of Object.entries(row))
        if (/_(?:g|pct|um)$/.test(name)) expect(cell).toMatch(/^(?:pan|\d[\d.e+-]*|)$/);
  });

  test("weighed again from its own columns it is the same sheet", async () => {
    const { out } = await run(["evaluate", "-", "--csv"], { stdin: `# lot: =1\n${SHEET}` });
    const again = cellsOf(out).map((row) => `${row.aperture_um},${row.net_g}`);
    const read = readSheet(Buffer.from(`aperture_um,net_g\n${again.join("\n")}\n`));
    const first = readSheet(Buffer.from(SHEET));
    expect(read.ok && read.value.sheet).toEqual(first.ok && first.value.sheet);
  });
});
