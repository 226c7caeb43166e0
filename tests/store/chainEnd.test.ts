import { describe, expect, test } from "vitest";
import { FIRST_PREVIOUS, sealOf } from "../../src/record/seal.ts";
import { endTrouble, headAt, movedOn, NO_HEAD } from "../../src/store/chainEnd.ts";
import { chained } from "../../src/store/chained.ts";
import { chainOf, entriesOf } from "./chain.ts";
import { must, mustNot } from "./opened.ts";
import { note, testEntry } from "./records.ts";

const { days, head } = chainOf({ "2026-11-24": 3, "2026-11-25": 2 });
const entries = entriesOf(days);
const headOf = (number: number) => (number === 0 ? NO_HEAD : headAt(entries[number - 1]!));

describe("sealing entries", () => {
  test("numbers them without gaps from 1, each holding the seal of the one before", () => {
    expect(entries.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5]);
    expect(entries[0]?.previous).toBe(FIRST_PREVIOUS);
    for (let i = 1; i < entries.length; i += 1) expect(entries[i]?.previous).toBe(sealOf(entries[i - 1]!));
    expect(head).toEqual({ schema: "sievewright.head/1", number: 5, day: "2026-11-25", seal: sealOf(entries[4]!) });
  });

  test("files them under the day and station that they are told", () =>
    expect(must(chained(head, "2026-11-26", "TH-MILL", [note("x")])).sealed).toEqual([
      {
        kind: "note",
        number: 6,
        at: "2026-11-24T09:00:00+01:00",
        day: "2026-11-26",
        station: "TH-MILL",
        by: "KO",
        previous: head.seal,
        text: "x",
      },
    ]));

  test("refuses an entry that would not be read back, and says where the fault is", () => {
    const entry = testEntry("T-1");
    const broken = { ...entry, ...(entry.kind === "test" ? { test: { ...entry.test, chargeG: -1 } } : {}) };
    expect(mustNot(chained(head, "2026-11-26", "TH-MILL", [note("x"), broken]))).toMatch(
      /^the entry can't be recorded: damaged at test, chargeG: /,
    );
  });
});

describe("where the chain goes on", () => {
  test.each([0, 1, 2, 3, 4, 5])("a head at entry %i moves on over all that links up, without a word", (number) =>
    expect(movedOn(headOf(number), days)).toEqual({ head, trouble: null }),
  );

  test("is the head itself, the very same, when nothing lies beyond it", () => {
    expect(movedOn(head, days).head).toBe(head);
    expect(movedOn(head, []).head).toBe(head);
  });

  test("is after the highest number when the head is older than the days at hand, and that is told", () => {
    const { head: end, trouble } = movedOn(headOf(1), days.slice(1));
    expect(end).toEqual(head);
    expect(trouble).toBe("the log goes on to entry 5, but not from entry 1 where it ended before");
  });

  test("stops believing at the first entry that doesn't link up, but gives no number twice", () => {
    const forged = { ...entries[3]!, by: "XX" };
    const broken = [days[0]!, { ...days[1]!, entries: [forged, entries[4]!] }];
    const { head: end, trouble } = movedOn(headOf(3), broken);
    expect(end.number).toBe(5);
    expect(trouble).toContain("but not from entry 4");
  });

  test("does not depend on the order in which the days are handed in", () =>
    expect(movedOn(NO_HEAD, [...days].reverse())).toEqual({ head, trouble: null }));
});

describe("whether the end is as it was", () => {
  test("it is, when the head's entry is there and has the head's seal", () =>
    expect(endTrouble(head, days)).toBe(null));

  test("a log without entries has nothing to miss", () => expect(endTrouble(NO_HEAD, [])).toBe(null));

  test("an end that was cut off is missing", () =>
    expect(endTrouble(head, [days[0]!])).toBe("entry 5, with which the log ended, is missing"));

  test("an end that was changed shows", () => {
    const last = { ...entries[4]!, by: "XX" };
    expect(endTrouble(head, [{ ...days[1]!, entries: [entries[3]!, last] }])).toBe(
      "entry 5 is not as it was when it was recorded",
    );
  });
});
