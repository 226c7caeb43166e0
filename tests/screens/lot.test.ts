import { describe, expect, test } from "vitest";
import type { TestEntry } from "../../src/record/logEntry.ts";
import type { Product } from "../../src/record/product.ts";
import type { Role } from "../../src/record/roles.ts";
import type { Place } from "../../src/screens/place.ts";
import type { HoldOpened } from "../../src/shift/holds.ts";
import { FILTER_SAND } from "../run/hands.ts";
import { anApp, recordedEntry, Stage } from "./stage.ts";

const place: Place = { name: "lot", product: "TH-0510", lot: "4471-B", line: "Dryer 1", histories: [], at: 0 };
const HOLD: HoldOpened = {
  kind: "hold opened",
  number: 4,
  at: "2026-11-24T03:00:00+01:00",
  day: "2026-11-23",
  station: "TH-DRY1",
  by: "KO",
  previous: "0".repeat(64),
  product: "TH-0510",
  lot: "4471-B",
  line: "Dryer 1",
  owner: "ML",
  reason: "fails at 710 um",
  of: null,
};
const closes = (role: Role) =>
  new Stage(anApp({ place, holds: [HOLD], session: { initials: "KO", name: "K. Orr", role } })).types("c");

describe("closing a hold from the page of its lot", () => {
  test("is refused at once for a role that may not, before a form is filled in vain", () => {
    const stage = closes("operator");
    expect(stage.app.place.name).toBe("lot");
    expect(stage.app.message).toContain("quality");
  });

  test("opens the form for somebody of quality", () => {
    expect(closes("quality").app.place.name).toBe("event");
  });
});

describe("releasing a lot that its tests do not support", () => {
  const signed = (...products: ("fail" | "pass")[]): Place => ({
    ...place,
    name: "lot",
    histories: products.map((product, i) => {
      const entry = recordedEntry(i + 3, "4471-B");
      return { entry: { ...entry, test: { ...entry.test, signed: { ...entry.test.signed, product } } }, later: [] };
    }),
  });
  const closing = (from: Place) => new Stage(anApp({ place: from, holds: [HOLD] })).types("c");
  const entryOf = (stage: Stage) =>
    stage.effects.flatMap((effect) => (effect.do === "recordEvent" ? [effect.entry] : []))[0];

  test.each([
    [signed("fail"), "lot 4471-B FAILED by no. 3"],
    [signed("fail", "pass"), "lot 4471-B FAILED: no. 3 failed; a later pass does not take that away"],
    [place, "there is no valid test of this lot"],
  ])("repeats why before it is signed, and puts it on record: %#", (from, against) => {
    const stage = closing(from);
    expect(stage.screen()).not.toContain(against);
    stage.enters("release");
    expect(stage.screen()).toContain(`! ${against}`);
    stage.enters("sold as seconds");
    expect(stage.screen()).toContain(`! ${against}`);
    expect(entryOf(stage.enters(""))).toMatchObject({ disposition: "release", despite: against });
  });

  test("says nothing against rework, nor against the release of what passed", () => {
    const rework = closing(signed("fail")).enters("rework").enters("screened again").enters("");
    expect(entryOf(rework)).not.toHaveProperty("despite");
    const passed = closing(signed("pass")).enters("release").enters("kept back by mistake").enters("");
    expect(entryOf(passed)).toMatchObject({ disposition: "release" });
    expect(entryOf(passed)).not.toHaveProperty("despite");
  });

  test("stays on the page of the lot: how the last hold was closed, by whom, when and why", () => {
    const { owner: _owner, of: _of, line: _line, ...common } = HOLD;
    const closed = {
      ...common,
      kind: "hold closed",
      number: 6,
      by: "ML",
      hold: { day: "2026-11-23", number: 4 },
      disposition: "release",
      reason: "sold as seconds",
      despite: "lot 4471-B FAILED by no. 3",
    } as const;
    const from: Place = { ...place, name: "lot", histories: [], closed };
    const screen = new Stage(anApp({ place: from })).screen().replace(/\s+/g, " ");
    expect(screen).toContain(
      "no. 4 was closed 2026-11-24 03:00 by ML: release although lot 4471-B FAILED by no. 3 (sold as seconds) (no. 6)",
    );
  });
});

describe("a retest from the page of a lot", () => {
  const rule = { ways: ["resample" as const], atMost: 1 };
  const withRule = (retest: typeof rule): Product => ({ ...FILTER_SAND, method: { ...FILTER_SAND.method, retest } });
  const failed = (number: number): TestEntry => {
    const entry = recordedEntry(number, "4471-B");
    return { ...entry, test: { ...entry.test, signed: { ...entry.test.signed, product: "fail" } } };
  };
  const lotOf = (...entries: TestEntry[]): Place => ({
    ...place,
    name: "lot",
    histories: entries.map((entry) => ({ entry, later: [] })),
  });
  const at = (product: Product, ...entries: TestEntry[]) =>
    new Stage(anApp({ place: lotOf(...entries), holds: [HOLD], products: [product], drafts: [] }));

  test("is set out with what it repeats and how it came about, lot, line and point standing", () => {
    const stage = at(withRule(rule), failed(3)).types("r");
    const run = stage.app.place.name === "run" ? stage.app.place.run : expect.fail("no test is set out");
    expect(run.draft).toMatchObject({
      lot: "4471-B",
      line: "Dryer 1",
      retest: { way: "resample", of: { testId: "t-3", number: 3 } },
    });
    expect(stage.screen()).toContain("resample, repeats no. 3");
  });

  test("stays with its lot and its product", () => {
    const stage = at(withRule(rule), failed(3)).types("r").presses("enter");
    expect(stage.enters("4472").screen()).toContain("this test repeats no. 3: for another lot");
    expect(stage.app.place).toMatchObject({ run: { draft: { lot: "4471-B" } } });
  });

  test.each([
    ["s", withRule(rule), [failed(3)], /names no second portion, only: resample/],
    ["r", FILTER_SAND, [failed(3)], /names no retest/],
    ["r", withRule(rule), [failed(3), failed(4)], /allows 1 retest and there is 1/],
  ])("by %s is refused where the method does not allow it: %#", (key, product, entries, words) => {
    const stage = at(product, ...entries).types(key);
    expect(stage.app.place.name).toBe("lot");
    expect(stage.app.message).toMatch(words);
  });

  test("counts as made while it is in work", () => {
    const stage = at(withRule(rule), failed(3)).types("r").presses("enter", "escape");
    expect(stage.app.place.name).toBe("lot");
    expect(stage.types("r").app.message).toMatch(/allows 1 retest and there is 1/);
  });

  test("shows all results of the lot side by side, the missed limit first", () => {
    const screen = at(withRule(rule), failed(3), failed(4)).screen();
    expect(screen).toMatch(/result +limits +no\. 3 +no\. 4/);
    expect(screen).toMatch(/passing 1.4 mm +95 – 100 +98\.1 % ✓ +98\.1 % ✓/);
    expect(screen).toMatch(/d50 +690 – 790 um +765 um ✓/);
  });
});
