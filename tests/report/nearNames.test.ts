import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { nearNames } from "../../src/report/nearNames.ts";

const KNOWN = ["basis", "rounding", "charge", "check minute", "finenessModulus", "hold"];

describe("near names", () => {
  test.each([
    ["roundign", ["rounding"]],
    ["chrage", ["charge"]],
    ["fineness", ["finenessModulus"]],
    ["checkminute", ["check minute"]],
    ["zzz", []],
    ["", []],
    ["!!", []],
  ])("%s: %j", (name, near) => expect(nearNames(name, KNOWN)).toEqual(near));

  test("three at most, the nearest first", () => {
    expect(nearNames("test", ["tests", "test", "text", "tent", "best"])).toEqual(["test", "tests", "text"]);
  });

  test("one letter more or less is near to any name of three letters and more", () => {
    fc.assert(
      fc.property(fc.stringMatching(/^[a-z]{4,12}$/), fc.nat(), (name, at) => {
        const i = at % name.length;
        expect(nearNames(name.slice(0, i) + name.slice(i + 1), [name])).toEqual([name]);
      }),
    );
  });
});
