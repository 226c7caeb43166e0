import { describe, expect, test } from "vitest";
import type { Operators } from "../../src/record/operators.ts";
import { type OperatorChange, personOf, withChange } from "../../src/record/operatorsList.ts";
import { aList, another, person } from "./people.ts";

const LATER = "2026-11-25T09:00:00+01:00";
const added = (change: object = {}): OperatorChange => ({
  event: "added",
  initials: "AN",
  name: "A. New",
  role: "operator",
  pin: "4711",
  reason: "",
  ...change,
});
const to = (change: OperatorChange, list = aList(), pin = another) => withChange(list, change, pin, LATER);
const must = (change: OperatorChange, list?: Operators) => {
  const changed = to(change, list);
  if (!changed.ok) throw new Error(changed.reason);
  return changed.value;
};

describe("a change of the list of people", () => {
  test("adds somebody behind the others, active, with what is kept of the PIN and never the PIN", () => {
    const { operators, person: made } = must(added());
    expect(operators.people.map(({ initials }) => initials)).toEqual(["SB", "ML", "KO", "AN"]);
    expect(made).toEqual({
      initials: "AN",
      name: "A. New",
      role: "operator",
      state: "active",
      pin: another,
      pinSetAt: LATER,
    });
    expect(JSON.stringify(operators)).not.toContain("4711");
  });

  test("sets a role, a PIN, retires and brings back, and leaves all else as it was", () => {
    const of = (change: OperatorChange, list?: Operators) => personOf(must(change, list).operators.people, "KO");
    const who = { initials: "KO", reason: "" };
    expect(of({ ...who, event: "role changed", role: "quality" })).toEqual(person("KO", "quality"));
    expect(of({ ...who, event: "PIN set", pin: "4711" })).toEqual({ ...person("KO"), pin: another, pinSetAt: LATER });
    const retired = must({ ...who, event: "retired" }).operators;
    expect(personOf(retired.people, "KO")).toEqual(person("KO", "operator", { state: "retired" }));
    expect(of({ ...who, event: "brought back" }, retired)).toEqual(person("KO"));
  });

  test("finds people in any case of their initials", () =>
    expect(must({ event: "role changed", initials: "ko", role: "quality", reason: "" }).person.initials).toBe("KO"));

  const retire = (initials: string): OperatorChange => ({ event: "retired", initials, reason: "" });
  test.each<[string, OperatorChange]>([
    ["KO is taken by KO of the invented plant: choose other initials", added({ initials: "ko" })],
    ["initials: begin with a letter and hold letters, digits, dot and dash, at most 8", added({ initials: "47" })],
    ["name: is empty", added({ name: " " })],
    ['"XX" is nobody of this station', retire("XX")],
    ["KO is not retired", { event: "brought back", initials: "KO", reason: "" }],
    ["KO is operator already", { event: "role changed", initials: "KO", role: "operator", reason: "" }],
    ["SB is the only administrator: name another one first", retire("SB")],
    [
      "SB is the only administrator: name another one first",
      { event: "role changed", initials: "SB", role: "quality", reason: "" },
    ],
  ])("is refused: %s", (reason, change) => expect(to(change)).toEqual({ ok: false, reason }));

  test("retires nobody twice, and an administrator once there is another", () => {
    const two = must(added({ role: "administrator" })).operators;
    const left = must(retire("SB"), two).operators;
    expect(to(retire("SB"), left)).toEqual({ ok: false, reason: "SB is retired already" });
    expect(to(retire("AN"), left)).toMatchObject({ ok: false, reason: expect.stringContaining("only administrator") });
  });

  test("ends at 500 people", () => {
    const crowd = Array.from({ length: 500 }, (_, i) => person(`P${i}`, i === 0 ? "administrator" : "operator"));
    expect(to(added(), aList({ people: crowd }))).toMatchObject({ ok: false });
  });

  test("never takes anybody from the list, nor changes the one given", () => {
    const list = aList();
    const before = structuredClone(list);
    for (const change of [retire("KO"), added()]) expect(must(change, list).operators.people.length).toBeGreaterThan(2);
    expect(list).toEqual(before);
  });
});
