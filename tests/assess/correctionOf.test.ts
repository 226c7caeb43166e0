import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { amendingRefusal, corrected, correctionOf, refTo } from "../../src/assess/correctionOf.ts";
import type { Change } from "../../src/record/amendment.ts";
import { BUDGET_MODEL } from "../../src/record/uncertainty.ts";
import { currentTest } from "../../src/record/versions.ts";
import { plain, said } from "../screens/amending.ts";
import { recordedEntry } from "../screens/stage.ts";
import { must, mustNot } from "../store/opened.ts";

const HISTORY = plain(recordedEntry(7, "4471-B"));
const full = (to: number): Change => ({ field: "fullG", apertureUm: 710, from: 493.5, to });

describe("a corrected test", () => {
  test("has the verdicts and the loss of a test that was weighed so, whatever the mass", () =>
    fc.assert(
      fc.property(fc.integer({ min: 38_500, max: 60_000 }), (hundredths) => {
        fc.pre(hundredths !== 49_350);
        const after = must(corrected(HISTORY, [full(hundredths / 100)], "0.2.0"));
        const { entry } = HISTORY;
        const weighings = entry.test.weighings.map((w) =>
          w.apertureUm === 710 ? { ...w, fullG: hundredths / 100 } : w,
        );
        const { signed: _before, ...unsigned } = entry.test;
        const assessed = must(assessTest({ ...unsigned, weighings }));
        expect(after.signed).toEqual({
          program: "0.2.0",
          test: assessed.verdict.test,
          product: assessed.verdict.product,
          lossPct: assessed.lossPct,
          budget: BUDGET_MODEL,
        });
      }),
      { numRuns: 40 },
    ));

  test("that loses a sieve's mass can't be assessed and is refused", () =>
    expect(mustNot(corrected(HISTORY, [{ ...full(1), to: null } as Change], "0.2.0"))).toContain("can't be assessed"));

  test("keeps the model of uncertainty, or none, by which it was signed, unless a mass changes", () => {
    const { budget: _none, ...before } = HISTORY.entry.test.signed;
    const old = plain({ ...HISTORY.entry, test: { ...HISTORY.entry.test, signed: before } });
    const lot: Change = { field: "lot", from: "4471-B", to: "4471-C" };
    expect(must(corrected(old, [lot], "0.2.0")).signed).not.toHaveProperty("budget");
    expect(must(corrected(old, [lot, full(493.2)], "0.2.0")).signed.budget).toBe(BUDGET_MODEL);
    const signed = plain({ ...old.entry, test: { ...old.entry.test, signed: { ...before, budget: 1 } } });
    expect(must(corrected(signed, [lot], "0.2.0")).signed.budget).toBe(1);
  });

  test("that is invalid releases nothing, unless somebody waived it", () => {
    const held = plain({ ...HISTORY.entry, test: { ...HISTORY.entry.test, disposition: "hold" } });
    const changes: Change[] = [full(480), { field: "disposition", from: "hold", to: "release" }];
    expect(mustNot(corrected(held, changes, "0.2.0"))).toContain("release is not possible");
    expect(must(corrected(said(held, "waived", "known loss"), changes, "0.2.0")).disposition).toBe("release");
    const valid = must(corrected(held, [{ field: "disposition", from: "hold", to: "release" }], "0.2.0"));
    expect(valid.disposition).toBe("release");
  });
});

describe("the entry that corrects", () => {
  test("names its test, what changes, why, and what follows; the history with it reads so", () => {
    const entry = must(correctionOf(HISTORY, [full(493.2)], "misread", "0.2.0"));
    expect(entry).toMatchObject({
      kind: "correction",
      of: refTo(HISTORY.entry),
      changes: [full(493.2)],
      reason: "misread",
    });
    expect(amendingRefusal(HISTORY, entry)).toBe(null);
    const sealed = {
      number: 8,
      at: "2026-11-25T08:00:00+01:00",
      day: "2026-11-25",
      station: "S",
      by: "KO",
      previous: "",
    };
    const now = currentTest({ ...HISTORY, later: [{ ...entry, ...sealed }] });
    expect(now).toEqual(must(corrected(HISTORY, [full(493.2)], "0.2.0")));
  });

  test("with other verdicts or another loss than follow is not taken", () => {
    const entry = must(correctionOf(HISTORY, [full(480)], "misread", "0.2.0"));
    expect(entry.signed.test).toBe("invalid");
    for (const lie of [{ test: "valid" as const }, { product: "pass" as const }, { lossPct: 0 }])
      expect(amendingRefusal(HISTORY, { ...entry, signed: { ...entry.signed, ...lie } })).toContain("other verdicts");
    expect(amendingRefusal(HISTORY, { ...entry, signed: { ...entry.signed, program: "0.1.0" } })).toBe(null);
    const { budget: _model, ...modelless } = entry.signed;
    expect(amendingRefusal(HISTORY, { ...entry, signed: modelless })).toContain("by which model of uncertainty");
  });
});
