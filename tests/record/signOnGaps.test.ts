import { describe, expect, test } from "vitest";
import type { LogEntry } from "../../src/record/logEntry.ts";
import { ruleTold, signOnGaps } from "../../src/record/signOnGaps.ts";
import { entryOf } from "./everyKind.ts";

let number = 0;
const sealed = (kind: LogEntry["kind"], change: object = {}): LogEntry => {
  number += 1;
  const seal = { number, day: "2026-11-24", station: "TH-DRY1", previous: "0".repeat(64) };
  return { ...entryOf(kind), ...seal, ...change } as LogEntry;
};
const SIGNED = { signedOn: true };
const required = () => sealed("station declared", { signOn: "required" });
const none = (change: object = {}) => sealed("station declared", { signOn: "none", ...change });
const kindsOf = (entries: readonly LogEntry[]) => signOnGaps(entries).gaps.map(({ kind }) => kind);

describe("gaps in the sign-on", () => {
  test("are entries without a PIN behind them, from the declaration on", () => {
    const late = sealed("note", { by: "ML" });
    const found = signOnGaps([sealed("test"), required(), sealed("test", SIGNED), late]);
    expect(found).toEqual({
      gaps: [{ number: late.number, day: "2026-11-24", kind: "note", by: "ML" }],
      rule: "required",
    });
  });

  test("are none where no sign-on was asked for, be it never declared or declared off", () => {
    expect(kindsOf([sealed("test"), sealed("note")])).toEqual([]);
    expect(kindsOf([required(), none(SIGNED), sealed("test")])).toEqual([]);
  });

  test("a declaration that nobody signed for, by which sign-on was turned off, is one", () =>
    expect(kindsOf([required(), none(), sealed("test")])).toEqual(["station declared"]));

  test("what the program notes of itself, comings and goings are none", () =>
    expect(
      kindsOf([required(), sealed("finding"), sealed("clock set"), sealed("sign-on", { event: "kept out" })]),
    ).toEqual([]));

  test("a recovery is one: its code stands in for the PIN", () =>
    expect(kindsOf([required(), sealed("operator", { event: "recovered" })])).toEqual(["operator"]));

  test("are found a day at a time as they are all at once", () => {
    const all = [sealed("test"), required(), sealed("note"), sealed("test", SIGNED), sealed("waived"), none()];
    for (let cut = 0; cut <= all.length; cut += 1) {
      const before = signOnGaps(all.slice(0, cut));
      const after = signOnGaps(all.slice(cut), before.rule);
      expect([...before.gaps, ...after.gaps]).toEqual(signOnGaps(all).gaps);
      expect(after.rule).toBe("none");
    }
  });
});

describe("what an entry tells of the rule in force", () => {
  test.each<[string, LogEntry, "required" | "none" | null]>([
    ["a declaration", required(), "required"],
    ["a declaration", none(), "none"],
    ["a test signed for", sealed("test", SIGNED), "required"],
    ["a test", sealed("test"), "none"],
    ["a change of people signed for", sealed("operator", SIGNED), "required"],
    ["the first administrator, or a recovery", sealed("operator"), null],
    ["somebody coming", sealed("sign-on", SIGNED), null],
    ["somebody kept out", sealed("sign-on", { event: "kept out" }), null],
    ["a finding", sealed("finding"), null],
    ["a finding while somebody is signed on", sealed("finding", SIGNED), null],
  ])("%s tells %s", (_what, entry, rule) => expect(ruleTold(entry)).toBe(rule));
});
