import { describe, expect, test } from "vitest";
import { emptyLedger } from "../../src/care/ledger/ledger.ts";
import { take } from "../../src/care/ledger/take.ts";
import { TestRecordSchema } from "../../src/record/test.ts";
import { recorded } from "../run/knownSieves.ts";

const from = { number: 1, at: "2026-11-01T08:00:00+01:00" };

/** Two tests; the second took these empty masses over from the first. */
function ledgerOf(ums: readonly number[]) {
  const [first, second] = recorded(2, () => 0);
  if (first?.kind !== "test" || second?.kind !== "test") throw new Error("two tests");
  const trail = second.test.weighings.flatMap(({ apertureUm, emptyG }) =>
    ums.includes(apertureUm)
      ? [{ at: second.at, field: "emptyG" as const, apertureUm, from: null, to: emptyG, takenOver: from }]
      : [],
  );
  const ledger = emptyLedger();
  take(ledger, first);
  take(ledger, { ...second, test: { ...second.test, trail } });
  return ledger;
}

describe("the ledger of the sieves", () => {
  test("counts the test as a use, and a mass that was taken over as no weighing", () => {
    const { lives } = ledgerOf([1400]);
    expect(lives.get("S-1400-a")?.weighings.map(({ number }) => number)).toEqual([1]);
    expect(lives.get("S-1400-a")?.used.tests).toBe(2);
    expect(lives.get("S-1000-a")?.weighings.map(({ number }) => number)).toEqual([1, 2]);
  });

  test("counts it no more once it was corrected: the sieve was not weighed in that test", () => {
    const [first, second] = recorded(2, () => 0);
    if (first?.kind !== "test" || second?.kind !== "test") throw new Error("two tests");
    const [row] = second.test.weighings;
    if (row === undefined || row.emptyG === null) throw new Error("a row");
    const { apertureUm, emptyG } = row;
    const item = { at: second.at, field: "emptyG" as const, apertureUm, from: null, to: emptyG, takenOver: from };
    const entry = { ...second, test: { ...second.test, trail: [item] } };
    const ledger = emptyLedger();
    take(ledger, first);
    take(ledger, entry);
    const { testId } = entry.test;
    const correction = {
      ...{ kind: "correction" as const, number: 3, at: second.at, day: second.day, station: "TH-DRY1", by: "KO" },
      ...{ previous: "0".repeat(64), of: { testId, day: second.day, number: 2 }, reason: "misread" },
      ...{
        changes: [{ field: "emptyG" as const, apertureUm, from: emptyG, to: emptyG + 1 }],
        signed: entry.test.signed,
      },
    };
    take(ledger, correction, { entry, later: [] });
    expect(ledger.lives.get("S-1400-a")?.weighings.map(({ number }) => number)).toEqual([1]);
  });

  test("a record keeps where a mass comes from, and nothing beside that", () => {
    const item = TestRecordSchema.shape.trail.element;
    const taken = { at: from.at, field: "emptyG", apertureUm: 710, from: null, to: 381.2, takenOver: from };
    expect(item.safeParse(taken).success).toBe(true);
    expect(item.safeParse({ ...taken, takenOver: { ...from, by: "KO" } }).success).toBe(false);
    expect(item.safeParse({ ...taken, takenOver: { number: 0, at: from.at } }).success).toBe(false);
  });
});
