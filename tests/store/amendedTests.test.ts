import { copyFile, readFile, rm, stat, utimes, writeFile } from "node:fs/promises";
import { describe, expect, test } from "vitest";
import type { AmendedFile, IndexMonth, IndexRow } from "../../src/record/indexRow.ts";
import { amendedPath, dayPath, indexPath } from "../../src/store/layout.ts";
import type { Store } from "../../src/store/store.ts";
import { correction, type Place, recordedTest, saying } from "./amended.ts";
import { must, mustNot, opened } from "./opened.ts";
import { note, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const OCTOBER = "2026-10-30T10:00:00+01:00";
const DECEMBER = "2026-12-03T10:00:00+01:00";
const rowOf = async (store: Store, { day, number }: Place): Promise<IndexRow | undefined> =>
  (await store.indexRows(day.slice(0, 7))).find((row) => row.number === number);
const kept = async (folder: string): Promise<AmendedFile> => JSON.parse(await readFile(amendedPath(folder), "utf8"));
const month = async (folder: string, name: string): Promise<IndexMonth> =>
  JSON.parse(await readFile(indexPath(folder, name), "utf8"));

/** A test of October that was corrected in December, with another test between them; closed. */
async function correctedLater(): Promise<{ folder: string; place: Place }> {
  const folder = await temporaryFolder();
  const store = await opened(folder);
  const place = await recordedTest(store, "T-1", OCTOBER);
  await recordedTest(store, "T-2");
  must(await store.record(await correction(store, place, { field: "fullG", apertureUm: 710, to: 470 }, DECEMBER)));
  await store.close();
  return { folder, place };
}
const CORRECTED = { corrections: 1, voided: false, waived: false };

describe("a corrected test", () => {
  test("is listed with the figures of its latest version, at the place of the original, and says so", async () => {
    const store = await opened(await temporaryFolder());
    const place = await recordedTest(store, "T-1");
    await recordedTest(store, "T-2");
    const before = await rowOf(store, place);
    must(await store.record(await correction(store, place, { field: "fullG", apertureUm: 500, to: 470 })));
    must(await store.record(await correction(store, place, { field: "lot", to: "4472-A" })));
    const row = await rowOf(store, place);
    expect(row).toMatchObject({ lot: "4472-A", at: before?.at, by: "KO", amended: { ...CORRECTED, corrections: 2 } });
    expect(row?.passingPct["500"]).not.toBe(before?.passingPct["500"]);
    expect((await store.indexRows("2026-11")).map(({ testId }) => testId)).toEqual(["T-1", "T-2"]);
    expect((await store.recentRows(2))[1]).toEqual(row);
  });

  test("keeps its original, and its history tells every later entry in the order of the log", async () => {
    const store = await opened(await temporaryFolder());
    const place = await recordedTest(store, "T-1");
    const original = must(await store.testEntry(place));
    must(await store.record(await correction(store, place, { field: "remark", to: "lid rattled" })));
    must(await store.record(await saying(store, "voided", place)));
    must(await store.record(await saying(store, "reinstated", place, "2026-11-24T13:00:00+01:00")));
    const history = must(await store.history(place));
    expect(history.entry).toEqual(original);
    expect(history.later.map(({ kind, number }) => [kind, number])).toEqual([
      ["correction", 2],
      ["voided", 3],
      ["reinstated", 4],
    ]);
    expect(await rowOf(store, place)).toMatchObject({ amended: CORRECTED });
  });

  test("of another month is listed as corrected by whoever opens next, and by a reader beside the writer", async () => {
    const { folder, place } = await correctedLater();
    const writer = await opened(folder);
    expect(await rowOf(writer, place)).toMatchObject({ amended: CORRECTED });
    const reader = await opened(folder);
    expect(reader.readOnly).not.toBe(null);
    expect(await rowOf(reader, place)).toMatchObject({ amended: CORRECTED });
    must(await writer.record(await saying(writer, "voided", place, "2026-12-04T10:00:00+01:00")));
    expect(await rowOf(reader, place)).toMatchObject({ amended: { ...CORRECTED, voided: true } });
    expect(must(await reader.history(place)).later).toHaveLength(2);
  });

  test("filed in an earlier month than its test, by a clock that was set back, is found all the same", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    const place = await recordedTest(store, "T-1", DECEMBER);
    must(await store.record(await correction(store, place, { field: "lot", to: "X" }, OCTOBER)));
    expect(await rowOf(store, place)).toMatchObject({ lot: "X", amended: CORRECTED });
    await store.close();
    expect(await rowOf(await opened(folder), place)).toMatchObject({ lot: "X", amended: CORRECTED });
  });
});

describe("the file of amended tests", () => {
  test("holds their rows and where the entries lie; the months hold what lies in them", async () => {
    const { folder, place } = await correctedLater();
    expect(await kept(folder)).toMatchObject({ tests: [{ later: [3], row: { testId: "T-1", number: place.number } }] });
    expect((await month(folder, "2026-12")).amendments).toMatchObject([
      { day: "2026-12-03", number: 3, kind: "correction", of: { testId: "T-1", ...place } },
    ]);
    expect(await month(folder, "2026-10")).not.toHaveProperty("amendments");
  });

  test.each<[string, (path: string) => Promise<unknown>]>([
    ["missing", (path) => rm(path)],
    ["garbage", (path) => writeFile(path, "{")],
    ["empty", (path) => writeFile(path, "")],
    [
      "lying",
      async (path) => {
        const file = JSON.parse(await readFile(path, "utf8"));
        await writeFile(path, JSON.stringify({ ...file, tests: [], months: { ...file.months, "2026-12": [] } }));
      },
    ],
  ])("that is %s is drawn again from the months", async (_how, spoil) => {
    const { folder, place } = await correctedLater();
    const before = await kept(folder);
    await spoil(amendedPath(folder));
    const store = await opened(folder);
    expect(await rowOf(store, place)).toMatchObject({ amended: CORRECTED });
    expect(must(await store.history(place)).later).toHaveLength(1);
    await store.close();
    expect(await kept(folder)).toEqual(before);
  });

  test("of an older copy catches up, even if its time says that it is the youngest", async () => {
    const { folder, place } = await correctedLater();
    await copyFile(amendedPath(folder), `${amendedPath(folder)}.old`);
    const store = await opened(folder);
    must(await store.record(await saying(store, "voided", place, "2026-12-04T10:00:00+01:00")));
    await store.close();
    await copyFile(`${amendedPath(folder)}.old`, amendedPath(folder));
    const future = new Date(Date.now() + 86_400_000);
    await utimes(amendedPath(folder), future, future);
    expect(await rowOf(await opened(folder), place)).toMatchObject({ amended: { ...CORRECTED, voided: true } });
  });

  test("is behind after a kill between the day and the index: the next opening takes the entry in", async () => {
    const { folder, place } = await correctedLater();
    const files = [amendedPath(folder), indexPath(folder, "2026-12")];
    for (const path of files) await copyFile(path, `${path}.killed`);
    const store = await opened(folder);
    must(await store.record(await saying(store, "voided", place, "2026-12-04T10:00:00+01:00")));
    await store.close();
    for (const path of files) await copyFile(`${path}.killed`, path);
    expect(await rowOf(await opened(folder), place)).toMatchObject({ amended: { ...CORRECTED, voided: true } });
  });

  test("behind after a kill with the clock set back, and another entry recorded before anybody looked", async () => {
    const { folder, place } = await correctedLater();
    const november = [amendedPath(folder), indexPath(folder, "2026-11")];
    for (const path of november) await copyFile(path, `${path}.killed`);
    const store = await opened(folder);
    must(await store.record(await saying(store, "voided", place, "2026-11-24T12:00:00+01:00")));
    await store.close();
    for (const path of november) await copyFile(`${path}.killed`, path);
    const past = new Date(Date.now() - 86_400_000);
    await utimes(dayPath(folder, "2026-11-24"), past, past); // by this clock the index is younger than the day
    const next = await opened(folder);
    must(await next.record(note("first thing", "2026-12-05T10:00:00+01:00")));
    await next.close();
    expect(await rowOf(await opened(folder), place)).toMatchObject({ amended: { ...CORRECTED, voided: true } });
  });

  test("is not written when nothing about tests is recorded", async () => {
    const { folder } = await correctedLater();
    const before = (await stat(amendedPath(folder))).mtimeMs;
    const store = await opened(folder);
    must(await store.record(testEntry("T-9", "2026-12-05T10:00:00+01:00")));
    await store.indexRows("2026-12");
    await store.close();
    expect((await stat(amendedPath(folder))).mtimeMs).toBe(before);
  });

  test("comes out the same when everything is drawn again", async () => {
    const { folder, place } = await correctedLater();
    const store = await opened(folder);
    const before = await rowOf(store, place);
    const file = await kept(folder);
    must(await store.reindex());
    expect(await rowOf(store, place)).toEqual(before);
    expect(await kept(folder)).toEqual(file);
  });

  test("forgets what the log has lost: a test whose correction is gone reads as it was recorded", async () => {
    const { folder, place } = await correctedLater();
    await rm(dayPath(folder, "2026-12-03"));
    const store = await opened(folder);
    expect(await rowOf(store, place)).not.toHaveProperty("amended");
    expect(must(await store.history(place)).later).toEqual([]);
  });
});

describe("what can't be said of a test", () => {
  test("is refused in words, and nothing is recorded", async () => {
    const store = await opened(await temporaryFolder());
    const place = await recordedTest(store, "T-1");
    const fits = await correction(store, place, { field: "lot", to: "X" });
    if (fits.kind !== "correction") throw new Error("no correction");
    const refusals: string[] = [];
    const tries = [
      { ...fits, of: { ...fits.of, number: 9 } },
      { ...fits, of: { ...fits.of, testId: "T-2" } },
      { ...fits, changes: [{ field: "lot" as const, from: "Y", to: "X" }] },
      { ...fits, changes: [{ field: "lot" as const, from: "4471-B", to: "4471-B" }] },
      { ...fits, changes: [{ field: "fullG" as const, apertureUm: 999, from: 1, to: 2 }] },
      { ...fits, changes: [{ field: "fullG" as const, apertureUm: 500, from: 463, to: null }] },
      { ...fits, signed: { ...fits.signed, product: "pass" as const } },
      { ...fits, reason: " " },
      await saying(store, "reinstated", place),
      await saying(store, "waived", place),
    ];
    for (const entry of tries) refusals.push(mustNot(await store.record(entry)));
    expect(refusals).toEqual([
      "the log holds no test T-1 as entry 9 of 2026-11-24",
      "the log holds no test T-2 as entry 1 of 2026-11-24",
      "the correction of lot finds 4471-B, where it says Y stood",
      "the correction of lot changes nothing: 4471-B stands there",
      "the test has no sieve for the correction of fullG",
      expect.stringContaining("corrected like that it can't be assessed"),
      expect.stringContaining("states other verdicts than follow"),
      expect.stringContaining("needs a reason"),
      "test no. 1 is not void: there is nothing to reinstate",
      "test no. 1 is not invalid: nothing to waive",
    ]);
    expect(await store.entriesOfDay("2026-11-24")).toHaveLength(1);
  });

  test("twice is refused: the second correction of the same figure must start from the first", async () => {
    const store = await opened(await temporaryFolder());
    const place = await recordedTest(store, "T-1");
    const twice = await correction(store, place, { field: "lot", to: "X" });
    must(await store.record(twice));
    expect(mustNot(await store.record(twice))).toBe("the correction of lot finds X, where it says 4471-B stood");
    must(await store.record(await saying(store, "voided", place)));
    expect(mustNot(await store.record(await saying(store, "voided", place)))).toBe("test no. 1 is void already");
  });

  test("among many is refused as one by one, a correction of a test of the same batch is taken", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    const place = await recordedTest(store, "T-1");
    const [fix, gone] = [
      await correction(store, place, { field: "lot", to: "X" }),
      await saying(store, "voided", place),
    ];
    expect(must(await store.recordAll([testEntry("T-2"), fix, gone]))).toBe(3);
    expect(await rowOf(store, place)).toMatchObject({ lot: "X", amended: { corrections: 1, voided: true } });
    expect(mustNot(await store.recordAll([testEntry("T-3"), fix]))).toContain("finds X");
    expect((await store.indexRows("2026-11")).map(({ testId }) => testId)).toEqual(["T-1", "T-2", "T-3"]);
  });
});
