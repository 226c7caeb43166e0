import { describe, expect, test } from "vitest";
import { operatorsKind } from "../../src/record/kinds.ts";
import { readRecord } from "../../src/record/migrate.ts";
import { OperatorsSchema, operatorInitials, sameInitials } from "../../src/record/operators.ts";
import { aList, aVerifier, person } from "./people.ts";

const reads = (change: object) => OperatorsSchema.safeParse({ ...aList(), ...change }).success;

describe("operators.json", () => {
  test("is read as it was written", () =>
    expect(readRecord(JSON.stringify(aList()), operatorsKind)).toEqual({ is: "read", value: aList() }));

  test("of a newer program is left alone", () =>
    expect(readRecord(JSON.stringify({ ...aList(), schema: "sievewright.operators/2" }), operatorsKind).is).toBe(
      "newer version",
    ));

  test.each([
    ["nobody in it", { people: [] }],
    ["initials twice, in any case", { people: [person("KO"), person("ko")] }],
    ["a role that there is none of", { people: [{ ...person("KO"), role: "owner" }] }],
    ["a PIN in it", { people: [{ ...person("KO"), code: "4711" }] }],
    ["an unnamed person", { people: [{ ...person("KO"), name: "  " }] }],
    ["no time till sign-off", { idleMinutes: 0 }],
    ["a time of a day till sign-off", { idleMinutes: 1440 }],
    ["a rule that there is none of", { signOn: "maybe" }],
    ["an unknown field", { extra: 1 }],
  ])("with %s is damaged", (_what, change) => expect(reads(change)).toBe(false));

  test.each([
    ["a cost that is no power of two", { n: 1000 }],
    ["a cost that takes the whole memory", { n: 2 ** 20, r: 64 }],
    ["a short hash", { hash: "ab" }],
    ["no salt", { salt: "" }],
    ["a salt that is not hexadecimal", { salt: "z".repeat(32) }],
    ["another method", { method: "md5" }],
  ])("with a verifier of %s is damaged", (_what, change) => {
    expect(reads({ recovery: aVerifier })).toBe(true);
    expect(reads({ recovery: { ...aVerifier, ...change } })).toBe(false);
  });
});

describe("initials to sign on with", () => {
  test.each(["KO", "ÄB", "k.o", "KO2", "A"])("%s will do", (text) =>
    expect(operatorInitials.safeParse(text).success).toBe(true),
  );

  test.each(["", "4711", "2KO", "K O", "KATHARINA", "-", "K\u0007", "__proto__"])("%j won't", (text) =>
    expect(operatorInitials.safeParse(text).success).toBe(false),
  );

  test("are the same in upper and lower case", () => {
    expect(sameInitials("KO", "ko")).toBe(true);
    expect(sameInitials("KO", "KQ")).toBe(false);
  });
});
