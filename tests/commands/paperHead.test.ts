import { describe, expect, test } from "vitest";
import { type PaperHead, PaperWatch, paperHead } from "../../src/commands/paperHead.ts";

describe("a head as typed from paper", () => {
  test.each<[string, PaperHead | null]>([
    ["4413 6fa3 55b3", { number: null, seal: "44136fa355b3" }],
    ["4413-6FA3-55B3", { number: null, seal: "44136fa355b3" }],
    ["1234:4413 6fa3 55b3", { number: 1234, seal: "44136fa355b3" }],
    [` 1234: ${"a".repeat(64)} `, { number: 1234, seal: "a".repeat(64) }],
    ["4413 6fa", null],
    ["4413 6fa3 55bz", null],
    ["1234", null],
    ["12:34:44136fa355b3", null],
    ["", null],
    ["a".repeat(65), null],
  ])("%j", (typed, read) => expect(paperHead(typed)).toEqual(read));
});

describe("what it proves", () => {
  const log = [
    { number: 1, seal: "11112222333344445555" },
    { number: 2, seal: "aaaabbbbccccddddeeee" },
  ];
  const against = (paper: PaperHead, entries = log) => {
    const watch = new PaperWatch(paper);
    for (const { number, seal } of entries) watch.passing({ number, day: "2026-11-24", previous: "" }, seal);
    return watch.verdict(entries.at(-1) ?? null, (seal) => seal.slice(0, 12));
  };

  test("the entry with that seal is in the log", () => {
    expect(against({ number: null, seal: "aaaabbbbcccc" })).toEqual({ holds: 2 });
    expect(against({ number: 1, seal: "111122223333" })).toEqual({ holds: 1 });
  });

  test("a log that was cut short before that entry", () => {
    expect(against({ number: 2, seal: "aaaabbbbcccc" }, log.slice(0, 1))).toEqual({
      fails: "entry 2 is not in the log, and the log ends with entry 1: it was cut short since",
    });
    expect(against({ number: null, seal: "aaaabbbbcccc" }, [])).toEqual({
      fails: "no entry has a seal that begins aaaabbbbcccc, and the log is empty: it was cut short or changed since",
    });
  });

  test("an entry that has another seal now", () =>
    expect(against({ number: 1, seal: "aaaabbbbcccc" })).toEqual({
      fails: "entry 1 has the seal 111122223333, not aaaabbbbcccc: the log was changed since",
    }));
});
