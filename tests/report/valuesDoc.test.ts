import { join } from "node:path";
import { expect, test } from "vitest";
import { CHARACTERISTIC_VALUES } from "../../src/grading/values/table.ts";
import { valuePage } from "../../src/report/valuePage.ts";
import { valuesDoc } from "./valuesDoc.ts";

test("docs/values.md is what npm run docs:values writes", async () => {
  await expect(valuesDoc()).toMatchFileSnapshot(join(import.meta.dirname, "../../docs/values.md"));
});

test("docs/values.md tells of each value all that its page on screen tells", () => {
  const sections = valuesDoc().split("\n## ").slice(1);
  expect(sections).toHaveLength(CHARACTERISTIC_VALUES.length);
  for (const [i, row] of CHARACTERISTIC_VALUES.entries()) {
    expect(sections[i]).toContain(`\`${row.id}\``);
    const told = valuePage(row, null, 1000).map((line) => line.replace(/^(\w+) +/, "- **$1**: "));
    for (const line of told) expect(sections[i]?.split("\n")).toContain(line);
  }
});
