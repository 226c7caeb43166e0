import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { PERMISSIONS, rolesFor } from "../../src/record/permissions.ts";
import { ROLES } from "../../src/record/roles.ts";

test("the manual shows the table that the store refuses by, row for row", () => {
  const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
  const rows = PERMISSIONS.map(({ act }) => {
    const signs = ROLES.map((role) => (rolesFor(act).includes(role) ? "✓" : ""));
    return `| ${[act, ...signs].join(" | ")} |`;
  });
  expect(readme).toContain(rows.join("\n"));
});
