import { readdir } from "node:fs/promises";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Draft } from "../../src/record/draft.ts";
import type { Store } from "../../src/store/store.ts";
import { must, mustNot, opened } from "./opened.ts";
import { busyDraft, draft, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

describe("drafts", () => {
  test("are on disk when the save is accepted, in a file named after the test", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.saveDraft(draft("T-1", 1)));
    expect(await readdir(join(folder, "drafts"))).toEqual(["T-1.json"]);
    must(await store.dropDraft("T-1"));
    expect(await readdir(join(folder, "drafts"))).toEqual([]);
    expect(store.drafts()).toEqual([]);
  });

  test("come in the order in which the tests were begun, by the moment and not by the clock on the wall", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.saveDraft(draft("B", 0, "2026-10-25T02:10:00+01:00")));
    must(await store.saveDraft(draft("A", 0, "2026-10-25T02:40:00+02:00"))); // half an hour earlier
    must(await store.saveDraft(draft("D", 0, "2026-10-26T08:00:00+01:00")));
    must(await store.saveDraft(draft("C", 0, "2026-10-26T08:00:00+01:00")));
    expect(store.drafts().map(({ testId }) => testId)).toEqual(["A", "B", "C", "D"]);
  });

  test("dropping one that isn't there is fine, and its test can be begun again", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.dropDraft("T-1"));
    must(await store.saveDraft(draft("T-1")));
    must(await store.dropDraft("T-1"));
    must(await store.saveDraft(draft("T-1", 2)));
    expect(store.drafts()).toEqual([draft("T-1", 2)]);
  });

  test("dropping one that is just being saved leaves none behind", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    const saving = store.saveDraft(draft("T-1", 1));
    must(await store.dropDraft("T-1"));
    must(await saving);
    expect(await readdir(join(folder, "drafts"))).toEqual([]);
  });

  test.each([
    ["a negative mass", { chargeG: -1 }, /^the draft can't be saved: damaged at chargeG: /],
    ["a lot with a line break", { lot: "4471\nB" }, /damaged at lot: /],
    ["a field of its own", { more: 1 }, /unknown field "more"/],
    ["a figure that is none", { chargeG: Number.NaN }, /damaged at chargeG: /],
    ["minus zero", { chargeG: -0 }, /chargeG is -0/],
    ["a field that is undefined", { program: undefined }, /damaged at program: /],
    ["a name that Windows keeps", { testId: "con" }, /"con" is a name that Windows keeps for itself/],
    ["a name that leads elsewhere", { testId: "../T-1" }, /damaged at testId: /],
  ])("with %s are refused, for they could not be read back", async (_, wrong, words) => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    expect(mustNot(await store.saveDraft({ ...draft("T-1"), ...wrong } as never))).toMatch(words);
    expect(await readdir(join(folder, "drafts"))).toEqual([]);
  });

  test("whose ids differ only by letter case would be one file on Windows and are refused", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.saveDraft(draft("T-1a")));
    expect(mustNot(await store.saveDraft(draft("T-1A")))).toBe("test T-1A differs from test T-1a only by letter case");
    must(await store.saveDraft(draft("T-1a", 2)));
  });

  test("saved at the same time all arrive, each as saved last", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    const saves = Array.from({ length: 60 }, (_, i) => store.saveDraft(busyDraft(`T-${i % 3}`, i)));
    for (const save of await Promise.all(saves)) must(save);
    await store.close();
    const again = await opened(folder);
    expect(again.drafts()).toEqual([57, 58, 59].map((i) => busyDraft(`T-${i % 3}`, i)));
  });

  test("after any run of saves, drops, records and restarts are those not dropped and not recorded", () =>
    fc.assert(
      fc.asyncProperty(fc.array(anyStep, { maxLength: 25 }), async (steps) => {
        const folder = await temporaryFolder();
        let store = await opened(folder);
        const expected: Expected = { drafts: new Map(), recorded: new Set() };
        for (const step of steps) {
          if (step.what === "restart") {
            await store.close();
            store = await opened(folder);
          } else await DOING[step.what]?.(store, expected, `T-${step.test}`, step.weighed);
        }
        const weighed = ({ weighings }: Draft) => weighings.filter(({ fullG }) => fullG !== null).length;
        expect(new Map(store.drafts().map((one) => [one.testId, weighed(one)]))).toEqual(expected.drafts);
        await store.close();
      }),
      { numRuns: 20 },
    ));
});

interface Expected {
  readonly drafts: Map<string, number>;
  readonly recorded: Set<string>;
}

const anyStep = fc.record({
  what: fc.constantFrom("save", "save", "save", "drop", "record", "restart"),
  test: fc.integer({ min: 1, max: 4 }),
  weighed: fc.integer({ min: 0, max: 5 }),
});

const DOING: Readonly<
  Record<string, (store: Store, expected: Expected, testId: string, weighed: number) => Promise<void>>
> = {
  async save(store, { drafts, recorded }, testId, weighed) {
    const saved = await store.saveDraft(draft(testId, weighed));
    expect(saved.ok).toBe(!recorded.has(testId));
    if (saved.ok) drafts.set(testId, weighed);
  },
  async drop(store, { drafts }, testId) {
    must(await store.dropDraft(testId));
    drafts.delete(testId);
  },
  async record(store, { drafts, recorded }, testId) {
    must(await store.record(testEntry(testId)));
    recorded.add(testId);
    drafts.delete(testId);
  },
};
