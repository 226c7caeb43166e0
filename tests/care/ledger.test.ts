import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { emptyLedger, newLife } from "../../src/care/ledger/ledger.ts";
import { take } from "../../src/care/ledger/take.ts";
import { MOST_WEIGHINGS, thinned } from "../../src/care/ledger/thinned.ts";
import type { Change } from "../../src/record/amendment.ts";
import type { Care } from "../../src/record/care.ts";
import type { WeighedEmpty } from "../../src/record/careLedger.ts";
import type { Amendment } from "../../src/record/logEntry.ts";
import { weighed } from "../store/careWorld.ts";
import { careEntry } from "./knownWorld.ts";

const weighing = (number: number): WeighedEmpty => {
  const at = new Date(Date.UTC(2026, 0, 1) + number * 3_600_000).toISOString();
  return { number, day: at.slice(0, 10), at, testId: `t-${number}`, emptyG: 400 + number / 100 };
};

/** A life of so many weighings, each taken in one after the other. */
function lived(count: number, step = 1, life = newLife("S-1")): readonly WeighedEmpty[] {
  let kept: readonly WeighedEmpty[] = [];
  for (let k = 1; k <= count; k++) kept = thinned({ ...life }, [...kept, weighing(k * step)]);
  return kept;
}

describe("the weighings of a life", () => {
  test("stay few whatever its length, the first twelve and the latest sixty whole, in order", () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 3000 }), fc.integer({ min: 1, max: 4 }), (count, step) => {
        const kept = lived(count, step).map(({ number }) => number / step);
        expect(kept.length).toBeLessThanOrEqual(MOST_WEIGHINGS);
        expect(kept).toEqual(kept.toSorted((a, b) => a - b));
        const all = Array.from({ length: count }, (_, k) => k + 1);
        expect(kept.slice(0, 12)).toEqual(all.slice(0, 12));
        expect(kept.slice(-60)).toEqual(all.slice(-60));
      }),
      { numRuns: 25 },
    ));

  test("keep those after the first cleaning whole, and of two sieves of the same tests the same ones", () => {
    const cleanedAt = weighing(500).at;
    const kept = lived(3000, 1, { ...newLife("S-1"), cleanedAt }).map(({ number }) => number);
    expect(kept).toEqual(expect.arrayContaining(Array.from({ length: 12 }, (_, k) => 501 + k)));
    expect(lived(3000)).toEqual(lived(3000, 1, newLife("S-2")));
  });

  test("are spread over all of it", () => {
    const middle = lived(3000).filter(({ number }) => number > 500 && number < 2500);
    expect(middle.length).toBeGreaterThan(5);
  });
});

describe("the entries of the care log that are kept whole", () => {
  const S1 = ["S-1"];
  const GOOD = { light: "good", wrinkles: "good", tears: "good", solder: "good", seat: "good" } as const;
  const LOOKED: Care = { did: "inspection", serial: "S-1", looks: GOOD };
  const told = (...done: readonly Care[]) => {
    const ledger = emptyLedger();
    for (const [k, care] of done.entries()) take(ledger, careEntry(k + 1, weighing(k + 1).at, care));
    return { ledger, kept: [...ledger.notes.keys()], life: ledger.lives.get("S-1") };
  };

  test("are those that bear on its condition still", () => {
    const { kept, life } = told(
      LOOKED,
      { did: "quarantine", serials: S1, reason: "dented" },
      { did: "repair", serials: S1, what: "rim" },
      LOOKED,
      { did: "return to service", serials: S1, reason: "seats again" },
    );
    expect(kept).toEqual([4, 5]);
    expect(life?.told.map(({ did }) => did)).toEqual([
      "inspection",
      "quarantine",
      "repair",
      "inspection",
      "return to service",
    ]);
  });

  test("hold the latest measurement beside later looks", () => {
    const measured: Care = { ...LOOKED, measured: { warpUm: [710] } };
    expect(told(measured, measured, LOOKED, LOOKED).kept).toEqual([2, 4]);
  });

  test("hold the latest complete inspection and that of each part beside later looks at a part", () => {
    const looked = (looks: object): Care => ({ did: "inspection", serial: "S-1", looks });
    expect(told(LOOKED, looked({ tears: "faulty" }), looked({ seat: "good" }), looked({ seat: "good" })).kept).toEqual([
      1, 2, 4,
    ]);
  });

  test("stay few however often a sieve is brushed: the first cleaning and the latest ten", () => {
    const brushed = Array.from({ length: 400 }, (): Care => ({ did: "cleaning", serials: S1, how: "brush" }));
    const { kept, life } = told(LOOKED, ...brushed);
    expect(kept).toEqual([1, 2, ...Array.from({ length: 10 }, (_, k) => 392 + k)]);
    expect(life?.told).toHaveLength(200);
    expect(life?.toldInAll).toBe(401);
    expect(life?.cleanedAt).toBe(weighing(2).at);
  });

  test("of a cleaning of two sieves stay as long as one of them needs them", () => {
    const { kept } = told(
      { did: "cleaning", serials: ["S-1", "S-2"], how: "wash" },
      { did: "repair", serials: S1, what: "rim" },
    );
    expect(kept).toEqual([1, 2]);
  });
});

test("only a complete look begins the counts of a sieve anew", () => {
  const ledger = emptyLedger();
  const used = { tests: 3, sievedMin: 30, passedKg: 0.3, untimed: 0 };
  ledger.lives.set("S-1", { ...newLife("S-1"), used, ever: used });
  const looked = (looks: object): Care => ({ did: "inspection", serial: "S-1", looks });
  take(ledger, careEntry(1, weighing(1).at, looked({ seat: "good" })));
  expect(ledger.lives.get("S-1")?.used).toEqual(used);
  const whole = { light: "good", wrinkles: "good", tears: "faulty", solder: "good", seat: "good" };
  take(ledger, careEntry(2, weighing(2).at, looked(whole)));
  expect(ledger.lives.get("S-1")).toMatchObject({ used: { tests: 0 }, ever: { tests: 3 } });
});

test("an empty mass corrected from nothing is taken in, one taken away goes; the number of an entry orders, not the day", () => {
  const sealed = { number: 1, day: "2026-11-21", station: "TH-DRY1", previous: "0".repeat(64) };
  const asked = weighed("t-1", "2026-11-21T08:00:00+01:00");
  if (asked.kind !== "test") throw new Error("no test");
  const weighings = asked.test.weighings.map((w) => (w.apertureUm === 710 ? { ...w, emptyG: null } : w));
  const entry = { ...asked, ...sealed, test: { ...asked.test, weighings } };
  const { number, day } = entry;
  const of = { testId: "t-1", day, number };
  const corrected = (no: number, from: number | null, to: number | null): Amendment => {
    const changes: Change[] = [{ field: "emptyG", apertureUm: 710, from, to }];
    const { signed } = entry.test;
    return { kind: "correction", ...sealed, number: no, at: entry.at, by: "KO", of, changes, reason: "row", signed };
  };
  const ledger = emptyLedger();
  const emptiesG = () => ledger.lives.get("S-0710-1")?.weighings.map(({ emptyG }) => emptyG);
  take(ledger, entry);
  expect(emptiesG()).toEqual([]);
  const [given, gone] = [corrected(2, null, 402), corrected(3, 402, null)];
  take(ledger, given, { entry, later: [] });
  expect(emptiesG()).toEqual([402]);
  take(ledger, gone, { entry, later: [given] });
  expect(emptiesG()).toEqual([]);
  // A clock that was set back can have it that a voiding is read after the reinstatement that followed it.
  const [voided, reinstated] = (["voided", "reinstated"] as const).map(
    (kind, i): Amendment => ({ kind, ...sealed, number: 4 + i, at: entry.at, by: "KO", of, reason: "sample" }),
  );
  if (voided === undefined || reinstated === undefined) throw new Error("no entries");
  take(ledger, reinstated, { entry, later: [given, gone] });
  take(ledger, voided, { entry, later: [given, gone, reinstated] });
  expect(ledger.lives.get("S-0710-1")?.ever.tests).toBe(1);
});
