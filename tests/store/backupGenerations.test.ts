import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Generation,
  generationName,
  generationsIn,
  generationsToDrop,
  keptName,
} from "../../src/store/backupGenerations.ts";

const SEAL = "44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a";
const at = (when: string, number = 1): Generation =>
  generationsIn([generationName(Date.parse(when), { number, seal: SEAL })])[0] as Generation;
const daily = (days: number): Generation[] =>
  Array.from({ length: days }, (_, i) => at(`2026-11-${String(i + 1).padStart(2, "0")}T06:00:00Z`, i + 1));

describe("the name of an automatic copy", () => {
  test("says when it was made and where the log ended, and is read back", () => {
    const name = generationName(Date.parse("2026-11-24T05:58:12Z"), { number: 1234, seal: SEAL });
    expect(name).toBe("2026-11-24T05-58-12Z.no1234.44136fa355b3.json");
    expect(generationsIn([name])).toEqual([
      {
        name,
        madeAt: "2026-11-24T05-58-12Z",
        madeMs: Date.parse("2026-11-24T05:58:12Z"),
        number: 1234,
        seal: "44136fa355b3",
      },
    ]);
  });

  test("is told from strangers' names; the oldest comes first", () => {
    const [old, young] = [at("2026-11-23T05:00:00Z"), at("2026-11-24T05:00:00Z")];
    const strangers = ["x.json", "2026-13-24T05-58-12Z.no1.44136fa355b3.json", `${old.name}.tmp`, ".DS_Store"];
    expect(generationsIn([young.name, ...strangers, old.name])).toEqual([old, young]);
  });

  test("of a kept file is its own with the beginning of its hash", () =>
    expect(keptName("log/2026/11/2026-11-24.json", SEAL)).toBe("log/2026/11/2026-11-24.json.44136fa355b3678a"));
});

describe("which copies go", () => {
  const stay = (all: readonly Generation[], keep: number, logEnd = 10_000) => {
    const gone = generationsToDrop(all, keep, logEnd);
    return all.filter((one) => !gone.includes(one));
  };

  test("none as long as there is room", () => expect(stay(daily(14), 14)).toEqual(daily(14)));

  test("the oldest days when there is none", () => expect(stay(daily(20), 14)).toEqual(daily(20).slice(6)));

  test("of days gone by all but the last of each", () => {
    const [morning, noon, next] = [at("2026-11-23T06:00:00Z"), at("2026-11-23T14:00:00Z"), at("2026-11-24T06:00:00Z")];
    expect(stay([morning, noon, next], 14)).toEqual([noon, next]);
  });

  test("of a day with many starts the older ones, before the days gone by", () => {
    const starts = Array.from({ length: 30 }, (_, i) => at(`2026-11-24T08:${10 + i}:00Z`, 50 + i));
    const left = stay([...daily(10), ...starts], 14);
    expect(left).toEqual([...daily(10).slice(3), ...starts.slice(-7)]);
  });

  test("never one that knows entries which the log has not", () => {
    const all = [...daily(5).slice(0, 1), at("2026-11-02T07:00:00Z", 900), ...daily(20).slice(5)];
    expect(stay(all, 2, 100)).toContainEqual(at("2026-11-02T07:00:00Z", 900));
    expect(stay(all, 2, 900)).not.toContainEqual(at("2026-11-02T07:00:00Z", 900));
  });

  test("none because a clock was ahead once: the end of the log orders them, and the one just made stays", () => {
    const ahead = Array.from({ length: 6 }, (_, i) => at(`2031-01-0${i + 1}T06:00:00Z`, i + 1));
    const right = at("2026-11-24T06:00:00Z", 7);
    expect(generationsIn([right.name, ...ahead.map(({ name }) => name)])).toEqual([...ahead, right]);
    expect(stay(generationsIn([right.name, ...ahead.map(({ name }) => name)]), 3)).toContainEqual(right);
    const sameEnd = at("2026-11-24T06:00:00Z", 6);
    const all = generationsIn([sameEnd.name, ...ahead.map(({ name }) => name)]);
    expect(generationsToDrop(all, 1, 10, sameEnd.name)).toEqual(ahead);
  });

  test("the latest stays, and no more than asked for, whatever there is", () =>
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 0, max: 40 * 24 * 60 }), { minLength: 1, maxLength: 60 }),
        fc.integer({ min: 1, max: 20 }),
        (minutes, keep) => {
          const begin = Date.parse("2026-11-01T00:00:00Z");
          const names = minutes.map((m) => generationName(begin + m * 60_000, { number: m, seal: SEAL }));
          const all = generationsIn(names);
          const left = stay(all, keep, 10 ** 9);
          expect(left.length).toBeLessThanOrEqual(keep);
          expect(left.at(-1)).toEqual(all.at(-1));
        },
      ),
    ));
});
