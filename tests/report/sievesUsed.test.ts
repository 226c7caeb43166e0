import { expect, test } from "vitest";
import { sievesUsedWords } from "../../src/report/sievesUsed.ts";
import { testRecord } from "../store/records.ts";

const record = testRecord("t-1");
const weighings = record.weighings.map((w) => (w.apertureUm > 0 ? { ...w, serial: `S-${w.apertureUm}` } : w));

test("the sieves of a test are named by serial and set, with what was amiss with them then", () => {
  expect(sievesUsedWords(record)).toEqual([]);
  const sieves = [
    { serial: "S-1400", apertureUm: 1400, state: "fit" as const, text: "inspection not due" },
    { serial: "S-710", apertureUm: 710, state: "overdue" as const, text: "inspection overdue: 190 of 183 days" },
  ];
  expect(sievesUsedWords({ ...record, weighings, set: "SET-A", sieves })).toEqual([
    "sieves of set SET-A: 1.40 mm S-1400, 1.00 mm S-1000, 710 um S-710, 500 um S-500",
    "sieve S-710 was overdue: inspection overdue: 190 of 183 days",
  ]);
  expect(sievesUsedWords({ ...record, weighings })[0]).toMatch(/^sieves: 1\.40 mm S-1400, /);
});
