import { expect, test } from "vitest";
import { datesIn, isDated } from "../../../src/screens/log/dates.ts";
import { statesText } from "../../../src/screens/log/states.ts";
import { inLanguage } from "../../words/tongues.ts";

const FAILED = { test: "valid", verdict: "fail", disposition: "hold", amended: undefined } as const;

test("a test is found by what it is called on the screen, and in English as well", async () => {
  expect(statesText(FAILED)).toMatch(/^fail ✗ valid on hold/);
  const german = await inLanguage("de", () => statesText(FAILED));
  expect(german).toContain("verfehlt");
  expect(german).toContain("gesperrt");
  expect(german).toContain("fail");
});

test("a date leads to its month in every order in which it is written", async () => {
  expect(["2026-11-24", "24.11.2026", "24/11/2026", "11.2026"].map(isDated)).toEqual([true, true, true, true]);
  expect(["24.11", "24.13.2026", "2026", "4410-E"].map(isDated)).toEqual([false, false, false, false]);
  const german = await inLanguage("de", () => [datesIn("24.11.2026", "2026-11"), datesIn("24.12.2026", "2026-10")]);
  expect(german).toEqual([true, false]);
});
