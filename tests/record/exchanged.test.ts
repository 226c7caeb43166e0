import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { EXCHANGED, type Exchanged, jsonSchemaText } from "../../src/record/exchanged.ts";
import { MOTIONS } from "../../src/record/program.ts";
import { readProduct, readRegisterItem } from "../../src/record/readExchanged.ts";
import { readSheet } from "../../src/record/readSheet.ts";
import { nameOfItem } from "../../src/record/register.ts";
import { VALUE_IDS } from "../../src/record/valueIds.ts";

const shared = new URL("../../shared/", import.meta.url);
const inFolder = (folder: string) => readdirSync(new URL(folder, shared)).map((name) => [folder, name] as const);
const bytes = (folder: string, name: string) => readFileSync(new URL(`${folder}/${name}`, shared));
const kinds = Object.keys(EXCHANGED) as Exchanged[];

describe("shared/schemas", () => {
  test.each(kinds)("%s is what `npm run schemas` writes", (kind) =>
    expect(bytes("schemas", `${kind}.schema.json`).toString()).toBe(jsonSchemaText(kind)),
  );

  test("holds no other file", () =>
    expect(readdirSync(new URL("schemas", shared)).sort()).toEqual(kinds.map((kind) => `${kind}.schema.json`).sort()));

  test("refuses unknown fields and names the kind's version, as the program does", () => {
    const product = JSON.parse(jsonSchemaText("product"));
    expect(product.additionalProperties).toBe(false);
    expect(product.properties.schema.const).toBe("sievewright.product/1");
    expect(product.required).toEqual(["schema", "code", "name", "revision", "stackUm"]);
    expect(product.properties.method.properties.chargeG.additionalProperties).toBe(false);
  });

  test("carries the words that are fixed: value ids and motions", () => {
    const evaluation = JSON.parse(jsonSchemaText("evaluation"));
    expect(evaluation.properties.values.propertyNames.enum).toEqual(VALUE_IDS);
    expect(JSON.parse(jsonSchemaText("program")).properties.motion.enum).toEqual(MOTIONS);
  });
});

describe("every sample that a plant finds in shared/ is read as it stands", () => {
  test.each(inFolder("products"))("%s/%s, and the file is named for its code", (folder, name) => {
    const product = readProduct(bytes(folder, name));
    expect(product.ok ? `${product.value.code}.json` : product.reason).toBe(name);
  });

  test.each(inFolder("programs"))("%s/%s", (folder, name) => {
    const program = EXCHANGED.program.schema.parse(JSON.parse(bytes(folder, name).toString()));
    expect(`${program.code}.json`).toBe(name);
  });

  test.each(inFolder("stacks"))("%s/%s", (folder, name) => {
    const stack = EXCHANGED.stack.schema.parse(JSON.parse(bytes(folder, name).toString()));
    expect(`${stack.code}.json`).toBe(name);
  });

  test.each(inFolder("register"))("%s/%s, and the file is named for its item", (folder, name) => {
    const item = readRegisterItem(bytes(folder, name));
    expect(item.ok ? `${nameOfItem(item.value)}.json` : item.reason).toBe(name);
    expect(bytes(folder, name).toString()).toMatch(/invented/);
  });

  test.each(inFolder("sheets"))("%s/%s, and it is named for its product", (folder, name) => {
    const sheet = readSheet(bytes(folder, name));
    expect(sheet.ok ? sheet.value.sheet.product : sheet.reason).toBe(name.replace(/\.\w+$/, ""));
  });

  test("each product's program is among the programs", () => {
    const programs = inFolder("programs").map(([, name]) => name);
    for (const [folder, name] of inFolder("products")) {
      const product = readProduct(bytes(folder, name));
      expect(programs).toContain(`${product.ok ? product.value.method?.program : product.reason}.json`);
    }
  });

  test("says that it is invented", () => {
    for (const folder of ["products", "programs", "stacks"])
      for (const [, name] of inFolder(folder))
        expect(JSON.parse(bytes(folder, name).toString()).name).toMatch(/invented/);
  });
});
