import { expect, test } from "vitest";
import { isPractice, practiceId, practiceRefusal } from "../../src/record/practice.ts";

test("a practice test is told by its name, in whatever case; the name of a real one is a moment", () => {
  expect(isPractice({ testId: practiceId("20261124-021200-000") })).toBe(true);
  expect(isPractice({ testId: "PRACTICE-1" })).toBe(true);
  expect(isPractice({ testId: "20261124-021200-000" })).toBe(false);
});

test("a practice test is refused with what to do instead, a real one isn't", () => {
  expect(practiceRefusal({ testId: practiceId("1") })).toContain("never recorded");
  expect(practiceRefusal({ testId: practiceId("1") })).toContain("n on the bench");
  expect(practiceRefusal({ testId: "20261124-021200-000" })).toBeNull();
});
