import { expect, test } from "vitest";
import { actRefusal, PERMISSIONS } from "../../../src/record/permissions.ts";
import { ROLES } from "../../../src/record/roles.ts";
import { permissionTable } from "../../../src/report/permissionTable.ts";
import { roleTyped } from "../../../src/screens/operators/forms.ts";
import { actRefused, permitLines } from "../../../src/screens/operators/permits.ts";
import { inLanguage } from "../../words/tongues.ts";

test("a refusal reads in English as the store has it, for every role and act", () => {
  for (const role of ROLES)
    for (const { act } of PERMISSIONS) expect(actRefused(role, act)).toBe(actRefusal(role, act));
});

test("a refusal names act and role in the language of the screens", async () => {
  const refused = () => actRefused("operator", "publish a product");
  expect(await inLanguage("de", refused)).toBe(
    "ein Produkt veröffentlichen: dazu braucht es jemanden von der Qualität; angemeldet ist Bediener",
  );
  expect(await inLanguage("es", refused)).toMatch(/^publicar un producto .* calidad; .* operador$/);
});

test("the table of permissions keeps its columns in each language, and no act reaches into them", async () => {
  expect(permitLines()).toEqual(permissionTable());
  for (const language of ["de", "es"] as const) {
    const [, ...rows] = await inLanguage(language, permitLines);
    expect(rows).toHaveLength(PERMISSIONS.length);
    for (const row of rows) expect(row, row).toMatch(/^.{33} [✓-] {14}[✓-] {14}[✓-]$/);
  }
});

test("a role is typed by its number, its English name, or as the screens call it", async () => {
  expect(["1", "qual", "administrator", "x", ""].map(roleTyped)).toEqual([
    "operator",
    "quality",
    "administrator",
    null,
    null,
  ]);
  expect(await inLanguage("es", () => roleTyped("cal"))).toBe("quality");
  expect(await inLanguage("de", () => [roleTyped("bed"), roleTyped("oper"), roleTyped("calidad")])).toEqual([
    "operator",
    "operator",
    null,
  ]);
});
