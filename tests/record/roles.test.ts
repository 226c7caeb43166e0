import { describe, expect, test } from "vitest";
import { LogEntrySchema } from "../../src/record/logEntry.ts";
import { OPERATOR_EVENTS, ROLES, SIGN_ON_EVENTS, SIGN_ON_RULES } from "../../src/record/roles.ts";
import { entryOf } from "./everyKind.ts";

const sealed = { number: 1, day: "2026-11-24", station: "TH-DRY1", previous: "0".repeat(64) };
const reads = (entry: object) => LogEntrySchema.safeParse({ ...entry, ...sealed }).success;

describe("the words for people that the log takes", () => {
  test.each(ROLES)("role %s", (role) => expect(reads({ ...entryOf("operator"), role })).toBe(true));
  test.each(OPERATOR_EVENTS)("%s", (event) => expect(reads({ ...entryOf("operator"), event })).toBe(true));
  test.each(SIGN_ON_EVENTS)("signed %s", (event) => expect(reads({ ...entryOf("sign-on"), event })).toBe(true));
  test.each(SIGN_ON_RULES)("sign-on %s", (signOn) =>
    expect(reads({ ...entryOf("station declared"), signOn })).toBe(true),
  );

  test.each([
    ["operator", { role: "owner" }],
    ["operator", { event: "deleted" }],
    ["operator", { pin: "4711" }],
    ["sign-on", { event: "guessed" }],
    ["sign-on", { pin: "4711" }],
    ["station declared", { signOn: "sometimes" }],
  ] as const)("and no others: %s with %j", (kind, change) =>
    expect(reads({ ...entryOf(kind), ...change })).toBe(false),
  );

  test("an entry is signed for or says nothing of it: it can't say that it was not", () => {
    expect(reads({ ...entryOf("note"), signedOn: true })).toBe(true);
    expect(reads({ ...entryOf("note"), signedOn: false })).toBe(false);
  });
});
