import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { CHARACTERISTIC_VALUES } from "../../../src/grading/values/table.ts";
import { RULE_SETS } from "../../../src/procedure/rules/ruleSets.ts";
import { STANDARD_IDS, standardsOf } from "../../../src/report/standards/standards.ts";
import { type Standard, sourceText } from "../../../src/report/standards/told.ts";

const SRC = join(import.meta.dirname, "../../../src");

/** What the docstrings of a file say are its sources, their lines put together. */
const sourcesIn = (path: string): string =>
  readFileSync(join(SRC, path), "utf8")
    .replace(/\n \* (?!@)/g, " ")
    .split("\n")
    .filter((line) => /@source|canonical JSON/.test(line))
    .join("\n")
    .replace(/ +/g, " ");

const rows = STANDARD_IDS.flatMap((id) =>
  standardsOf(id).rows.map((row): [string, Standard] => [`${id}: ${row.figure}`, row]),
);

describe("the table of sources", () => {
  test.each(rows)("%s has a source", (_name, { source }) => {
    expect(source.trim().length).toBeGreaterThan(5);
  });

  test.each(rows.filter(([, { at }]) => at !== undefined))(
    "%s says what the docstring of its code says",
    (_name, row) => {
      expect(sourcesIn(row.at ?? "")).toContain(row.quotes ?? row.source);
    },
  );

  test("has every characteristic value, and every figure of every rule set", () => {
    expect(standardsOf("values").rows.map(({ source }) => source)).toEqual(
      CHARACTERISTIC_VALUES.map(({ source }) => source),
    );
    for (const { title, maxLossPct } of RULE_SETS.filter((set) => set.maxLossPct !== null)) {
      const loss = standardsOf("procedure").rows.filter(({ figure }) => figure.startsWith(title));
      expect(loss.map(({ source }) => source).join("\n")).toContain(`${maxLossPct?.value} %`);
    }
  });

  test("asks to check one's own copy wherever a source is only recalled", () => {
    const recalled = rows.filter(([, { source }]) => /memory|recalled/.test(source)).map(([, row]) => sourceText(row));
    expect(recalled.length).toBeGreaterThan(30);
    for (const text of recalled) {
      expect(text).not.toMatch(/\bmemory\b/);
      expect(text).toContain("check your copy");
    }
    expect(sourceText({ source: "JCGM 100 (memory)" })).toBe("JCGM 100 (recalled: check your copy)");
    expect(sourceText({ source: "ISO 3310-1" })).toBe("ISO 3310-1");
  });
});
