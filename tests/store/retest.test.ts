import { describe, expect, test } from "vitest";
import { correctionOf, refTo } from "../../src/assess/correctionOf.ts";
import type { NewEntry } from "../../src/record/logEntry.ts";
import type { TestRecord } from "../../src/record/test.ts";
import type { Store } from "../../src/store/store.ts";
import { must, mustNot, opened } from "./opened.ts";
import { testEntry } from "./records.ts";
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
});
