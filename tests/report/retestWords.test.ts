import { expect, test } from "vitest";
import { recordPage } from "../../src/report/recordPage.ts";
import { repeatedWords, retestWords } from "../../src/report/retestWords.ts";
import { recordedEntry } from "../screens/stage.ts";

const of = { testId: "t-1", day: "2026-11-21", number: 7 };

test("a retest names its way and the test that it repeats; any other test nothing", () => {
  expect(retestWords({ retest: { way: "second portion", of } })).toBe("second portion, repeats no. 7");
  expect([retestWords({}), repeatedWords(undefined)]).toEqual(["", ""]);
});

test("the record of a retest tells it, that of another test is silent", () => {
  const look = {
    width: 80,
    curveOf: () => [],
    printed: "",
    head: { number: 9, seal: "ab12".repeat(16) },
    original: false,
  };
  const entry = recordedEntry(3);
  const again = { ...entry, test: { ...entry.test, retest: { way: "resample" as const, of } } };
  expect(recordPage({ entry: again, later: [] }, look)).toContain("\nresample, repeats no. 7\n");
  expect(recordPage({ entry, later: [] }, look)).not.toContain("repeats");
});
