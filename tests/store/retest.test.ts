import { describe, expect, test } from "vitest";
import { correctionOf, refTo } from "../../src/assess/correctionOf.ts";
import type { NewEntry } from "../../src/record/logEntry.ts";
import type { TestRecord } from "../../src/record/test.ts";
import type { Store } from "../../src/store/store.ts";
import { must, mustNot, opened } from "./opened.ts";
import { product, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const AT = "2026-11-24T09:00:00+01:00";

function tested(testId: string, change: Partial<TestRecord> = {}): NewEntry {
  const entry = testEntry(testId, AT);
  return entry.kind === "test" ? { ...entry, test: { ...entry.test, ...change } } : entry;
}

async function recordedTest(store: Store, testId: string, change: Partial<TestRecord> = {}) {
  const entry = must(await store.record(tested(testId, change)));
  return entry.kind === "test" ? entry : expect.fail("no test");
}

const heldBy = (of: Awaited<ReturnType<typeof recordedTest>>): NewEntry => ({
  kind: "hold opened",
  at: AT,
  by: "KO",
  product: of.test.product.code,
  lot: of.test.lot,
  line: of.test.line,
  of: refTo(of),
  owner: "quality",
  reason: "asked for by the customer",
});

describe("a retest on record", () => {
  test("keeps which test it repeats and how it came about, in the log and in its index row", async () => {
    const store = await opened(await temporaryFolder());
    const first = await recordedTest(store, "T-1");
    const retest = { way: "second portion", of: refTo(first) } as const;
    const second = await recordedTest(store, "T-2", { retest });
    expect(must(await store.testEntry(second)).test.retest).toEqual(retest);
    expect((await store.indexRows("2026-11")).map((row) => row.retest)).toEqual([
      undefined,
      { way: "second portion", number: first.number },
    ]);
  });

  test("is refused where what it says it repeats is no such test on record", async () => {
    const store = await opened(await temporaryFolder());
    const first = await recordedTest(store, "T-1");
    const of = { ...refTo(first), testId: "T-9" };
    expect(mustNot(await store.record(tested("T-2", { retest: { way: "resample", of } })))).toMatch(
      /says that it repeats T-9, but entry \d+ of .* is no such test/,
    );
  });
});

describe("a lot on hold", () => {
  test("is not released by a further test, nor by correcting one; it is after the hold was closed", async () => {
    const store = await opened(await temporaryFolder());
    const first = await recordedTest(store, "T-1", { disposition: "adjust" });
    const hold = must(await store.record(heldBy(first)));
    expect(mustNot(await store.record(tested("T-2", { disposition: "release" })))).toContain("on hold by no.");
    const history = must(await store.history(first));
    const change = { field: "disposition", from: "adjust", to: "release" } as const;
    const correction = { ...must(correctionOf(history, [change], "signed too soon", "test")), at: AT, by: "KO" };
    expect(mustNot(await store.record(correction))).toContain("on hold by no.");
    const { product, lot, line: _line } = heldBy(first) as Extract<NewEntry, { kind: "hold opened" }>;
    const closing = { product, lot, hold: { day: hold.day, number: hold.number }, reason: "looked at" };
    must(await store.record({ kind: "hold closed", at: AT, by: "KO", disposition: "release", ...closing }));
    must(await store.record(correction));
  });

  test("gets no release by a correction that moves a released test to it", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.record(heldBy(await recordedTest(store, "T-1", { disposition: "hold" }))));
    const other = await recordedTest(store, "T-2", { lot: "OTHER", disposition: "release" });
    const lot = (await recordedTest(store, "T-3", { disposition: "adjust" })).test.lot;
    const moved = { field: "lot", from: "OTHER", to: lot } as const;
    const kept = { field: "disposition", from: "release", to: "hold" } as const;
    const correction = async (changes: readonly (typeof moved | typeof kept)[]) => {
      const history = must(await store.history(other));
      return { ...must(correctionOf(history, changes, "wrong lot typed", "test")), at: AT, by: "KO" };
    };
    expect(mustNot(await store.record(await correction([moved])))).toContain("on hold by no.");
    must(await store.record(await correction([moved, kept])));
  });
});

test("an invalid test that somebody waived is released by a correction", async () => {
  const store = await opened(await temporaryFolder());
  const first = await recordedTest(store, "T-1", {
    product: { ...product, method: { maxLossPct: 0.01 } },
    signed: { program: "test", test: "invalid", product: "not judged", lossPct: 0.1 },
    disposition: "resample",
  });
  const change = { field: "disposition", from: "resample", to: "release" } as const;
  must(await store.record({ kind: "waived", at: AT, by: "KO", of: refTo(first), reason: "the loss was found" }));
  const history = must(await store.history(first));
  must(await store.record({ ...must(correctionOf(history, [change], "waived", "test")), at: AT, by: "KO" }));
});
