import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const root = new URL("../../", import.meta.url);
const page = readFileSync(new URL("docs/faults.md", root), "utf8");
const rows = page.split("\n").filter((line) => line.startsWith("| ") && !/^\| (fault|---)/.test(line));
const testsIn = (text: string): string[] => [...text.matchAll(/`(tests\/[^`]+)`/g)].map(([, path = ""]) => path);

test("every fault on the page has a promise and a test that is there", () => {
  expect(rows.length).toBeGreaterThan(20);
  for (const row of rows) {
    const [, fault = "", promise = "", shown = ""] = row.split("|").map((cell) => cell.trim());
    expect([fault, promise].map((cell) => cell.length > 3)).toEqual([true, true]);
    expect(testsIn(shown), fault).not.toEqual([]);
  }
  for (const path of testsIn(page))
    expect([path, existsSync(fileURLToPath(new URL(path, root)))]).toEqual([path, true]);
});

test("it is linked from the page for developers", () =>
  expect(readFileSync(new URL("DEVELOPERS.md", root), "utf8")).toContain("(docs/faults.md)"));
