import { isAbsolute, resolve } from "node:path";
import { expect, test } from "vitest";
import { dataFolder } from "../../src/store/dataFolder.ts";

test("--data comes before SIEVEWRIGHT_DATA, and that before the platform's folder", () => {
  const environment = { SIEVEWRIGHT_DATA: "from-environment" };
  expect(dataFolder("asked", environment)).toBe(resolve("asked"));
  expect(dataFolder(undefined, environment)).toBe(resolve("from-environment"));
  expect(dataFolder(undefined, {})).toMatch(/sievewright/);
});

test("an empty name counts as none", () => {
  expect(dataFolder("", { SIEVEWRIGHT_DATA: "" })).toBe(dataFolder(undefined, {}));
  expect(dataFolder("", { SIEVEWRIGHT_DATA: "x" })).toBe(resolve("x"));
});

test("the platform's folder is an absolute path named after the program alone", () => {
  expect(isAbsolute(dataFolder(undefined, {}))).toBe(true);
  expect(dataFolder(undefined, {})).not.toContain("nodejs");
});
