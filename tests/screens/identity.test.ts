import { expect, test } from "vitest";
import { testIdOf } from "../../src/screens/run/identity.ts";
import { Stage } from "./stage.ts";

const AT = "2026-11-24T03:12:05+01:00";

test("a test is named by the moment it was set out, in UTC", () =>
  expect(testIdOf(AT, new Set())).toBe("20261124-021205-000"));

test("a name that another test has is never taken: the clock counts seconds and can be set back", () => {
  const taken = new Set<string>();
  for (let i = 0; i < 50; i += 1) taken.add(testIdOf(AT, taken));
  expect(taken.size).toBe(50);
});

/** Keys and scans that all come within one second. */
class Quick extends Stage {
  override now(): string {
    return AT;
  }
}

test("two tests set out in the same second by a scanner are two on the bench", () => {
  const stage = new Quick();
  for (const lot of ["A", "B"]) stage.scans("TH-0510").presses("enter").scans(lot).presses("escape");
  expect(stage.app.drafts.map((draft) => draft.lot)).toEqual(["A", "B"]);
  expect(new Set(stage.app.drafts.map((draft) => draft.testId)).size).toBe(2);
});

test("the name of a test that was ended or dropped is not given again", () => {
  const stage = new Quick();
  stage.scans("TH-0510").presses("enter").scans("A").presses("escape");
  const [first] = stage.app.drafts;
  stage.app = { ...stage.app, drafts: [] };
  stage.scans("TH-0510").presses("enter").scans("B").presses("escape");
  expect(stage.app.drafts.map(({ lot }) => lot)).toEqual(["B"]);
  expect(stage.app.drafts[0]?.testId).not.toBe(first?.testId);
});
