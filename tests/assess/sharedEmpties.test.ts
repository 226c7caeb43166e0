import { describe, expect, test } from "vitest";
import { type RepeatedTest, repeatedTests } from "../../src/assess/repeatedTests.ts";
import { sharedEmpties } from "../../src/assess/sharedEmpties.ts";
import { togetherWords } from "../../src/report/replicatesWords.ts";
import { entryWith } from "../screens/deckStreams.ts";

const NETS = [10, 50, 90, 80, 50, 20];
const AT = "2026-11-24T03:00:00+01:00";

function weighed(number: number): RepeatedTest {
  const { test: record } = entryWith(number, "R-1", NETS);
  return { ...record, number, at: AT, voided: false, waived: false };
}

/** A test whose sieves, but not the pan, were weighed empty in another one. */
function tookOver(number: number, from: number): RepeatedTest {
  const own = weighed(number);
  const trail = own.weighings
    .filter(({ apertureUm }) => apertureUm > 0)
    .map(({ apertureUm, emptyG }) => ({
      at: AT,
      field: "emptyG" as const,
      apertureUm,
      from: null,
      to: emptyG,
      takenOver: { number: from, at: AT },
    }));
  return { ...own, trail: [...own.trail.filter(({ field }) => field !== "emptyG"), ...trail] };
}

const SIEVES = [1400, 1000, 710, 500, 355];

describe("empty masses that repeated tests share", () => {
  test("are those taken over from one weighing, in the test that weighed them as well; never the pan", () => {
    expect([...sharedEmpties([weighed(1), tookOver(2, 1), weighed(3)])]).toEqual([
      [1, SIEVES],
      [2, SIEVES],
    ]);
    expect([...sharedEmpties([tookOver(4, 9), tookOver(5, 9)]).keys()]).toEqual([4, 5]);
    expect(sharedEmpties([tookOver(4, 8), tookOver(5, 9), weighed(1)]).size).toBe(0);
  });

  test("not one that was corrected in one of them", () => {
    const other = tookOver(2, 1);
    const weighings = other.weighings.map((w) => (w.apertureUm === 710 ? { ...w, emptyG: 300 } : w));
    const shared = sharedEmpties([weighed(1), { ...other, weighings }]);
    expect(shared.get(2)).toEqual([1400, 1000, 500, 355]);
  });

  const statedAt = (tests: readonly RepeatedTest[], um: number): number => {
    const found = repeatedTests(tests).figures.find(({ on }) => on === `passingPct@${um}`);
    return found?.determinable && found.found.honesty
      ? found.found.honesty.u
      : expect.fail("not held against anything");
  };

  test("leave the balance's part of what is stated smaller by their own readings, and the page says so", () => {
    const [own, sharing] = [
      [weighed(1), weighed(2)],
      [weighed(1), tookOver(2, 1)],
    ];
    const told = repeatedTests(sharing);
    expect(told.sharingEmpties).toEqual([1, 2]);
    expect(togetherWords(told).join()).toContain("no. 1, 2 share empty masses taken over: these can't differ");
    expect(repeatedTests(own).sharingEmpties).toEqual([]);
    expect(togetherWords(repeatedTests(own)).join()).not.toContain("share");
    expect(statedAt(sharing, 710)).toBeLessThan(statedAt(own, 710));
    // Half the readings of the sieves are left, so no less than the root of a half is.
    expect(statedAt(sharing, 710) / statedAt(own, 710)).toBeGreaterThan(Math.SQRT1_2 - 0.01);
  });

  test("change no value of theirs, and nothing of the tests by themselves", () => {
    const values = (tests: readonly RepeatedTest[]) =>
      repeatedTests(tests).figures.map((one) => (one.determinable ? one.values : one.reason));
    expect(values([weighed(1), tookOver(2, 1)])).toEqual(values([weighed(1), weighed(2)]));
  });
});
