import { describe, expect, test } from "vitest";
import type { Change } from "../../src/record/amendment.ts";
import { LogEntrySchema, type NewEntry } from "../../src/record/logEntry.ts";
import { type ActName, actOf, actRefusal, mayDo, PERMISSIONS, rolesFor } from "../../src/record/permissions.ts";
import { ROLES } from "../../src/record/roles.ts";
import { entryOf } from "./everyKind.ts";

describe("the table of what each role may do", () => {
  test("names each act once, and somebody for each", () => {
    const acts = PERMISSIONS.map(({ act }) => act);
    expect(new Set(acts).size).toBe(acts.length);
    for (const { roles } of PERMISSIONS) expect(roles.length).toBeGreaterThan(0);
  });

  test("has no act that edits or removes a record", () => {
    const words = PERMISSIONS.map(({ act }) => act).join(" ");
    expect(words).not.toMatch(/edit|delete|remove|overwrite/);
  });

  test.each<ActName>(["publish a product", "waive an invalid test", "close a hold", "void or reinstate a test"])(
    "leaves it to quality alone to %s",
    (act) => expect(rolesFor(act)).toEqual(["quality"]),
  );

  test.each<ActName>(["manage operators", "change the station", "restore a backup"])(
    "leaves it to administrators alone to %s",
    (act) => expect(rolesFor(act)).toEqual(["administrator"]),
  );

  test.each<ActName>(["record a test", "check the balance", "write a note", "correct a record", "open a hold"])(
    "lets everybody %s",
    (act) => expect(rolesFor(act)).toEqual(ROLES),
  );

  test("agrees with itself: a refusal in words for exactly those who may not", () => {
    for (const { act, roles } of PERMISSIONS)
      for (const role of ROLES) {
        const listed = (roles as readonly string[]).includes(role);
        expect([act, role, mayDo(role, act)]).toEqual([act, role, listed]);
        expect(actRefusal(role, act) === null).toBe(listed);
      }
  });

  test("refuses with the act, who may, and who one is", () =>
    expect(actRefusal("operator", "close a hold")).toBe(
      "to close a hold takes somebody of quality; you are signed on as operator",
    ));

  test("says an administrator where it takes one", () =>
    expect(actRefusal("operator", "manage operators")).toBe(
      "to manage operators takes an administrator; you are signed on as operator",
    ));
});

describe("what somebody does by an entry", () => {
  const kinds = LogEntrySchema.options.map((option) => option.shape.kind.value);
  const OF_THE_PROGRAM = ["sign-on", "finding", "clock set"];

  test.each(kinds)("%s is an act of the table, or noted by the program itself", (kind) => {
    const act = actOf(entryOf(kind));
    const known: readonly (string | null)[] = PERMISSIONS.map((row) => row.act);
    expect(act === null).toBe(OF_THE_PROGRAM.includes(kind));
    if (act !== null) expect(known).toContain(act);
  });

  const corrected = (change: Change): NewEntry => {
    const entry = entryOf("correction");
    return entry.kind === "correction" ? { ...entry, changes: [change] } : entry;
  };

  test.each([
    [{ field: "disposition", from: "hold", to: "release" }, "close a hold"],
    [{ field: "disposition", from: "hold", to: null }, "close a hold"],
    [{ field: "disposition", from: "release", to: "hold" }, "correct a record"],
    [{ field: "disposition", from: "adjust", to: "rework" }, "correct a record"],
    [{ field: "lot", from: "4471-B", to: "4471-C" }, "correct a record"],
  ] as const)("a correction of %j is to %s", (change, act) => expect(actOf(corrected(change))).toBe(act));
});
