import { readFile, writeFile } from "node:fs/promises";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FIRST_PREVIOUS, sealOf } from "../../src/record/seal.ts";
import { dayPath, draftPath, headPath } from "../../src/store/layout.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { must, mustNot, opened } from "./opened.ts";
import { draft, note, station, testEntry, testRecord } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

describe("recording an entry", () => {
  test("numbers, dates and seals it, and the head points to it", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    const first = must(await store.record(testEntry("T-1", "2026-11-24T08:31:00+01:00")));
    expect(first).toMatchObject({
      number: 1,
      day: "2026-11-24",
      station: "TH-DRY1",
      by: "KO",
      previous: FIRST_PREVIOUS,
    });
    const second = must(await store.record(note("x")));
    expect(second).toMatchObject({ number: 2, previous: sealOf(first) });
    expect(JSON.parse(await readFile(headPath(folder), "utf8"))).toEqual({
      schema: "sievewright.head/1",
      number: 2,
      day: "2026-11-24",
      seal: sealOf(second),
    });
  });

  test("files it under the production day: what is weighed at 05:59 belongs to the day before", async () => {
    const store = await opened(await temporaryFolder());
    expect(must(await store.record(note("early", "2026-11-25T05:59:59+01:00"))).day).toBe("2026-11-24");
    expect(must(await store.record(note("late", "2026-11-25T06:00:00+01:00"))).day).toBe("2026-11-25");
    expect(must(await store.record(note("written elsewhere", "2026-11-25T12:30:00+09:00"))).day).toBe("2026-11-24");
  });

  test("removes the draft of that test and no other", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.saveDraft(draft("T-1", 5)));
    must(await store.saveDraft(draft("T-2", 5)));
    must(await store.record(testEntry("T-1")));
    expect(store.drafts().map(({ testId }) => testId)).toEqual(["T-2"]);
  });

  test("a save that comes after it does not bring the draft back", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.saveDraft(draft("T-1", 5)));
    const recorded = store.record(testEntry("T-1"));
    must(await recorded);
    expect(mustNot(await store.saveDraft(draft("T-1", 5)))).toBe(
      "test T-1 is recorded; nothing more can be entered in it",
    );
    expect(store.drafts()).toEqual([]);
  });

  test("a save that was under way does not bring it back either", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.saveDraft(draft("T-1", 4)));
    await Promise.all([
      store.saveDraft(draft("T-1", 5)),
      store.record(testEntry("T-1")),
      store.saveDraft(draft("T-1", 5)),
    ]);
    expect(store.drafts()).toEqual([]);
    await store.close();
    expect((await opened(folder)).drafts()).toEqual([]);
  });

  test("many at once go one after another, without gaps or doubles", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    const entries = await Promise.all(Array.from({ length: 20 }, (_, i) => store.record(testEntry(`T-${i}`))));
    expect(entries.map((entry) => must(entry).number)).toEqual(Array.from({ length: 20 }, (_, i) => i + 1));
    expect(await verifyLog(folder)).toMatchObject({ ok: true, entries: 20 });
  });

  test("in an unknown time zone goes by the time as written, and the zone is told", async () => {
    const store = await opened(await temporaryFolder(), { create: { ...station, timeZone: "Tessel/Hollow" } });
    expect(must(await store.record(note("x", "2026-11-24T05:30:00+01:00"))).day).toBe("2026-11-23");
    expect(must(await store.record(note("y", "2026-11-24T06:30:00+01:00"))).day).toBe("2026-11-24");
    expect(must(await store.record(note("z", "2026-03-01T00:30:00+01:00"))).day).toBe("2026-02-28");
    expect(store.problems[0]).toContain("Tessel/Hollow");
    expect(store.problems[0]).toContain("Correct timeZone in station.json");
  });

  test.each([
    ["no time", { at: "yesterday" }, /"yesterday" is not a time/],
    ["no initials", { by: "" }, /damaged at by/],
    ["a text with an escape code", { text: "\u001b[2J" }, /damaged at text: /],
  ])("with %s is refused and leaves the log as it was", async (_, wrong, words) => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.record(note("x")));
    expect(mustNot(await store.record({ ...note("x"), ...wrong }))).toMatch(words);
    expect(must(await store.record(note("y"))).number).toBe(2);
  });

  test("with a figure that a file can't keep is refused by name", async () => {
    const store = await opened(await temporaryFolder());
    const test = { ...testRecord("T-1"), chargeG: -0 };
    expect(mustNot(await store.record({ kind: "test", at: test.finishedAt, by: "KO", test }))).toContain(
      "chargeG is -0",
    );
    expect(must(await store.record(testEntry("T-1"))).number).toBe(1);
  });
});

describe("recording the same test again", () => {
  test("gives the same entry and adds none", async () => {
    const store = await opened(await temporaryFolder());
    const first = must(await store.record(testEntry("T-1")));
    expect(must(await store.record(testEntry("T-1")))).toEqual(first);
    expect(await store.entriesOfDay("2026-11-24")).toHaveLength(1);
  });

  test("gives the same entry after the program was started again, weeks later", async () => {
    const folder = await temporaryFolder();
    const before = await opened(folder);
    const first = must(await before.record(testEntry("T-1")));
    must(await before.record(note("later", "2027-01-10T10:00:00+01:00")));
    await before.close();
    expect(must(await (await opened(folder)).record(testEntry("T-1")))).toEqual(first);
  });

  test("with other content is refused: a record does not change", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.record(testEntry("T-1")));
    const test = { ...testRecord("T-1"), remark: "second thoughts" };
    expect(mustNot(await store.record({ kind: "test", at: "2026-11-24T09:00:00+01:00", by: "KO", test }))).toBe(
      "test T-1 is recorded already, as entry 1 of 2026-11-24, with other content. Start a new test",
    );
  });
});

describe("a crash between the steps of a record", () => {
  test("after the day: the head moves on, the index follows, the draft goes", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.saveDraft(draft("T-1", 5)));
    const [head, text] = [await readFile(headPath(folder)), await readFile(draftPath(folder, "T-1"))];
    const entry = must(await store.record(testEntry("T-1")));
    await store.close();
    await writeFile(headPath(folder), head);
    await writeFile(draftPath(folder, "T-1"), text);

    const after = await opened(folder);
    expect(after.problems).toEqual([]);
    expect(after.drafts()).toEqual([]);
    expect(await after.indexRows("2026-11")).toHaveLength(1);
    expect(must(await after.record(note("x")))).toMatchObject({ number: 2, previous: sealOf(entry) });
    expect(await verifyLog(folder)).toMatchObject({ ok: true });
  });

  test("does not make a day that was cut short look whole", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.record(note("one")));
    const oneEntry = await readFile(dayPath(folder, "2026-11-24"));
    must(await store.record(note("two")));
    await store.close();
    await writeFile(dayPath(folder, "2026-11-24"), oneEntry);

    const after = await opened(folder);
    expect(after.problems[0]).toMatch(/^entry 2, with which the log ended, is missing/);
    const { number } = must(await after.record(note("three")));
    const before = (await after.entriesOfDay("2026-11-24")).slice(1, -1);
    expect(before.map(({ kind }) => kind)).toEqual(["finding", "finding"]); // told by the head, and by the index
    expect(number).toBe(5);
    expect(await verifyLog(folder)).toMatchObject({
      ok: false,
      firstBroken: { entry: 2, how: expect.stringContaining("entry 2 is gone") },
    });
  });
});

describe("recording many", () => {
  test("gives the same log as recording one by one, and says how many", async () => {
    const [one, many] = [await temporaryFolder(), await temporaryFolder()];
    const entries = Array.from({ length: 30 }, (_, i) =>
      testEntry(`T-${i}`, `2026-1${i % 3}-0${1 + (i % 7)}T10:00:00Z`),
    );
    const slow = await opened(one);
    for (const entry of entries) must(await slow.record(entry));
    const quick = await opened(many);
    expect(must(await quick.recordAll(entries))).toBe(30);
    const logOf = async (store: typeof slow) => {
      const rows = await store.recentRows(100);
      return { rows, last: must(await store.testEntry(rows[0]!)) };
    };
    expect(await logOf(quick)).toEqual(await logOf(slow));
    expect((await verifyLog(many)).head).toEqual((await verifyLog(one)).head);
  });

  test("passes over what is recorded already, also within the same batch", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.record(testEntry("T-1")));
    const batch = [testEntry("T-1"), testEntry("T-2"), testEntry("T-2"), note("a"), note("a")];
    expect(must(await store.recordAll(batch))).toBe(3);
    expect((await store.entriesOfDay("2026-11-24")).map(({ number }) => number)).toEqual([1, 2, 3, 4]);
  });

  test("none is fine", async () => expect(must(await (await opened(await temporaryFolder())).recordAll([]))).toBe(0));
});

test("whatever the order of days and restarts, numbers have no gaps and the chain holds", () =>
  fc.assert(
    fc.asyncProperty(
      fc.array(
        fc.oneof(
          fc.record({ day: fc.integer({ min: 1, max: 28 }), month: fc.integer({ min: 1, max: 12 }) }),
          fc.constant("restart" as const),
        ),
        { minLength: 1, maxLength: 12 },
      ),
      async (steps) => {
        const folder = await temporaryFolder();
        let store = await opened(folder);
        let count = 0;
        for (const step of steps) {
          if (step === "restart") {
            await store.close();
            store = await opened(folder);
            expect(store.problems).toEqual([]);
            continue;
          }
          count += 1;
          const at = `2026-${`${step.month}`.padStart(2, "0")}-${`${step.day}`.padStart(2, "0")}T12:00:00Z`;
          expect(must(await store.record(note(`${count}`, at))).number).toBe(count);
        }
        expect(await verifyLog(folder)).toMatchObject({ ok: true, entries: count });
        await store.close();
      },
    ),
    { numRuns: 25 },
  ));
