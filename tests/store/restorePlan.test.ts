import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { lossInWords, lossOf, type Seals, sealNumber } from "../../src/store/restorePlan.ts";

/** A log whose entry n has this seal, in small numbers. */
const log = (...seals: number[]): Seals => ({
  end: seals.length === 0 ? null : { number: seals.length, seal: "" },
  by: new Map(seals.map((seal, i) => [i + 1, seal])),
});

describe("what a station would lose to a copy", () => {
  test.each<[string, Seals, Seals, object]>([
    ["nothing to the same log", log(1, 2, 3), log(1, 2, 3), { is: "nothing" }],
    ["nothing to a longer one", log(1, 2), log(1, 2, 3), { is: "nothing" }],
    ["nothing where it has none", log(), log(1), { is: "nothing" }],
    ["what came after the copy", log(1, 2, 3, 4), log(1, 2), { is: "newer", from: 3, to: 4 }],
    ["all of it to an empty copy", log(1, 2), log(), { is: "newer", from: 1, to: 2 }],
    ["from where the two part", log(1, 2, 8, 9), log(1, 2, 3, 4, 5), { is: "diverged", from: 3, to: 4 }],
    ["all of it to the copy of another station", log(7, 8), log(1, 2), { is: "diverged", from: 1, to: 2 }],
  ])("%s", (_, there, copy, loss) => expect(lossOf(there, copy)).toEqual(loss));

  test("is not the entry that tells of the copy itself, but what came after it is", () => {
    expect(lossOf(log(1, 2, 3), log(1, 2), new Set([3]))).toEqual({ is: "nothing" });
    expect(lossOf(log(1, 2, 3, 4), log(1, 2), new Set([3]))).toEqual({ is: "newer", from: 4, to: 4 });
  });

  test("is nothing just where every entry of the station is in the copy", () =>
    fc.assert(
      fc.property(fc.array(fc.nat(9)), fc.array(fc.nat(9)), (there, copy) => {
        const held = there.every((seal, i) => copy[i] === seal);
        expect(lossOf(log(...there), log(...copy)).is === "nothing").toBe(held);
      }),
    ));

  test("in words names the entries", () => {
    expect(lossInWords({ is: "newer", from: 3, to: 3 })).toBe(
      "its log is newer than the backup: entry 3 would vanish from it",
    );
    expect(lossInWords({ is: "diverged", from: 3, to: 9 })).toMatch(/entries 3 to 9 are not as in the backup/);
  });
});

test("a seal is remembered by its first twelve digits", () => {
  expect(sealNumber(`${"0".repeat(11)}a${"f".repeat(52)}`)).toBe(10);
  expect(Number.isSafeInteger(sealNumber("f".repeat(64)))).toBe(true);
});
