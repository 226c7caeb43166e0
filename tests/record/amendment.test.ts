import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Change, ChangeSchema } from "../../src/record/amendment.ts";
import { type Amending, amendmentRefusal, correctedTest, isAmendment } from "../../src/record/amendmentRefusal.ts";
import type { Amendment, TestEntry } from "../../src/record/logEntry.ts";
import type { TestRecord } from "../../src/record/test.ts";
import {
  currentTest,
  standingOf,
  standsAt,
  type TestHistory,
  versionsOf,
  withChanges,
} from "../../src/record/versions.ts";
import { testRecord } from "../store/records.ts";

const sealed = (number: number) => ({
  number,
  at: "2026-11-25T08:00:00+01:00",
  day: "2026-11-25",
  station: "TH-DRY1",
  by: "ML",
  previous: "0".repeat(64),
});
const TEST = testRecord("T-1");
const ENTRY: TestEntry = { kind: "test", ...sealed(7), test: TEST };
const of = { testId: "T-1", day: "2026-11-25", number: 7 };
const plain: TestHistory = { entry: ENTRY, later: [] };
const signedAs = (test: "valid" | "invalid") =>
  ({ program: "0.2.0", test, product: "not judged", lossPct: 0.1 }) as const;

const correction = (number: number, changes: Change[], verdict: "valid" | "invalid" = "valid"): Amendment => ({
  kind: "correction",
  ...sealed(number),
  of,
  changes,
  reason: "misread",
  signed: signedAs(verdict),
});
const said = (number: number, kind: "voided" | "reinstated" | "waived"): Amendment => ({
  kind,
  ...sealed(number),
  of,
  reason: "wrong sample",
});
const history = (...later: Amendment[]): TestHistory => ({ entry: ENTRY, later });
const amending = (kind: "voided" | "reinstated" | "waived"): Amending => ({ kind, of, reason: "wrong sample" });
const lot = (from: string, to: string): Change => ({ field: "lot", from, to });

/** Changes in their order, each from whatever stands there by then. */
const anyChanges = (start: TestRecord): fc.Arbitrary<Change[]> => {
  const mass = fc.integer({ min: 1, max: 900_000 }).map((hundredths) => hundredths / 100);
  const anyChange = fc.oneof(
    fc.record({
      field: fc.constantFrom("emptyG" as const, "fullG" as const),
      apertureUm: fc.constantFrom(...start.weighings.map(({ apertureUm }) => apertureUm)),
      to: mass,
    }),
    fc.record({ field: fc.constantFrom("chargeG" as const, "moistG" as const, "dryG" as const), to: mass }),
    fc.record({
      field: fc.constantFrom("lot" as const, "remark" as const),
      to: fc.stringMatching(/^[a-z0-9-]{0,12}$/),
    }),
    fc.record({
      field: fc.constant("disposition" as const),
      to: fc.constantFrom("hold" as const, "rework" as const, null),
    }),
  );
  return fc.array(anyChange, { minLength: 1, maxLength: 8 }).map((wanted) => {
    let now = start;
    return wanted.map((one) => {
      const change = { ...one, from: standsAt(now, { ...one, from: null } as Change) ?? null } as Change;
      const next = withChanges(now, [change]);
      if (next.ok) now = next.value;
      return change;
    });
  });
};
const reversed = (changes: readonly Change[]): Change[] =>
  changes.map((change) => ({ ...change, from: change.to, to: change.from }) as Change).toReversed();

describe("changes of a test", () => {
  test("are what the schema of the log takes", () =>
    fc.assert(
      fc.property(anyChanges(TEST), (changes) => {
        for (const change of changes) expect(ChangeSchema.safeParse(change).success).toBe(true);
      }),
    ));

  test("taken back in turn give the test again, and never touch the one they start from", () => {
    const before = structuredClone(TEST);
    const full = { ...TEST, moistG: 5, dryG: 4 };
    fc.assert(
      fc.property(anyChanges(full), (changes) => {
        const there = withChanges(full, changes);
        expect(there.ok).toBe(true);
        if (there.ok) expect(withChanges(there.value, reversed(changes))).toEqual({ ok: true, value: full });
      }),
    );
    expect(TEST).toEqual(before);
  });

  test("leave the trail as it was: what was entered at the time stays what was entered", () =>
    fc.assert(
      fc.property(anyChanges(TEST), (changes) => {
        const there = withChanges(TEST, changes);
        expect(there).toMatchObject({ ok: true, value: { trail: TEST.trail, testId: TEST.testId } });
      }),
    ));

  test("must find what they say stood there, and a sieve that is there", () => {
    expect(withChanges(TEST, [lot("X", "Y")])).toMatchObject({ ok: false });
    expect(withChanges(TEST, [{ field: "fullG", apertureUm: 777, from: null, to: 1 }])).toMatchObject({ ok: false });
  });

  test.each<[Change[], string]>([
    [[], "nothing is corrected yet"],
    [[lot("4471-B", "4471-B")], "changes nothing"],
    [[lot("4471-B", "X"), lot("X", "Y")], "the same figure twice"],
    [[lot("X", "Y")], "finds 4471-B, where it says X stood"],
  ])("of a correction %# are refused when they say nothing or do not fit", (changes, why) => {
    const refused = correctedTest(plain, changes);
    expect(refused.ok ? "" : refused.reason).toContain(why);
  });

  test("of two sieves in one correction are two figures", () =>
    expect(
      correctedTest(plain, [
        { field: "fullG", apertureUm: 1400, from: 460, to: 461 },
        { field: "fullG", apertureUm: 1000, from: 461, to: 462 },
      ]),
    ).toMatchObject({ ok: true }));
});

describe("versions", () => {
  test("begin with the original, and each correction makes one more with the verdicts signed then", () => {
    const { versions, unfit } = versionsOf(
      history(correction(8, [lot("4471-B", "X")]), said(9, "voided"), correction(10, [lot("X", "Y")], "invalid")),
    );
    expect(versions.map(({ number, test: { lot: name, signed } }) => [number, name, signed.test])).toEqual([
      [7, "4471-B", "valid"],
      [8, "X", "valid"],
      [10, "Y", "invalid"],
    ]);
    expect(versions[0]).toMatchObject({ reason: null, test: TEST });
    expect(unfit).toEqual([]);
  });

  test("leave out a correction that does not fit, and name it", () => {
    const tampered = history(correction(8, [lot("never so", "X")]), correction(9, [lot("4471-B", "Y")]));
    expect(versionsOf(tampered).unfit).toEqual([8]);
    expect(currentTest(tampered).lot).toBe("Y");
  });

  test("of the same history are the same objects, so that what was found out about one holds", () => {
    const one = history(correction(8, [lot("4471-B", "X")]));
    expect(currentTest({ ...one })).toBe(currentTest(one));
    expect(currentTest(history(correction(8, [lot("4471-B", "Z")]))).lot).toBe("Z");
    expect(currentTest({ ...one, later: [] })).toBe(TEST);
  });
});

describe("how a test stands", () => {
  test.each<[Amendment[], { corrections: number; voided: boolean; waived: boolean }]>([
    [[], { corrections: 0, voided: false, waived: false }],
    [[said(8, "voided")], { corrections: 0, voided: true, waived: false }],
    [[said(8, "voided"), said(9, "reinstated")], { corrections: 0, voided: false, waived: false }],
    [[said(8, "voided"), said(9, "reinstated"), said(10, "voided")], { corrections: 0, voided: true, waived: false }],
    [[said(8, "waived"), correction(9, [lot("4471-B", "X")])], { corrections: 1, voided: false, waived: true }],
  ])("%# follows the latest word", (later, standing) => expect(standingOf(history(...later))).toEqual(standing));

  test.each<[string, TestHistory, Amending, string | null]>([
    ["void once", plain, amending("voided"), null],
    ["not void twice", history(said(8, "voided")), amending("voided"), "void already"],
    ["reinstated when void", history(said(8, "voided")), amending("reinstated"), null],
    ["not reinstated otherwise", plain, amending("reinstated"), "nothing to reinstate"],
    ["not waived when valid", plain, amending("waived"), "not invalid"],
    [
      "waived when a correction made it invalid",
      history(correction(8, [lot("4471-B", "X")], "invalid")),
      amending("waived"),
      null,
    ],
    [
      "not waived when void",
      history(correction(8, [lot("4471-B", "X")], "invalid"), said(9, "voided")),
      amending("waived"),
      "reinstate it first",
    ],
    [
      "not waived twice",
      history(correction(8, [lot("4471-B", "X")], "invalid"), said(9, "waived")),
      amending("waived"),
      "waived already",
    ],
  ])("is %s", (_what, of_, asked, why) => {
    const refusal = amendmentRefusal(of_, asked);
    if (why === null) expect(refusal).toBe(null);
    else expect(refusal).toContain(why);
  });

  test("only four kinds of entries say something of a test", () => {
    expect(isAmendment(said(8, "waived"))).toBe(true);
    expect(isAmendment(ENTRY)).toBe(false);
    expect(isAmendment({ kind: "note" })).toBe(false);
  });
});
