import { readFile, writeFile } from "node:fs/promises";
import { describe, expect, test } from "vitest";
import { readOnlyCabinet } from "../../src/commands/readOnlyCabinet.ts";
import type { IndexMonth } from "../../src/record/indexRow.ts";
import { indexAgainstLog } from "../../src/store/indexAgainstLog.ts";
import { ROWS_DRAWN } from "../../src/store/indexRowOf.ts";
import { amendedPath, careLedgerPath, indexPath } from "../../src/store/layout.ts";
import { correction, recordedTest } from "./amended.ts";
import { weighed, withSet } from "./careWorld.ts";
import { must, opened } from "./opened.ts";
import { indexRowOf } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const MONTH = "2026-11";
const amissIn = (folder: string) => indexAgainstLog(readOnlyCabinet(folder), indexRowOf);

async function station(): Promise<string> {
  const folder = await temporaryFolder();
  const store = await opened(folder);
  const place = await recordedTest(store, "T-1");
  await recordedTest(store, "T-2");
  must(await store.record(await correction(store, place, { field: "lot", to: "X" })));
  await store.close();
  return folder;
}

async function edited(path: string, change: (json: IndexMonth) => object): Promise<void> {
  await writeFile(path, JSON.stringify(change(JSON.parse(await readFile(path, "utf8")))));
}

describe("the index compared with what the log gives", () => {
  test("is fine as it was written", async () => expect(await amissIn(await station())).toEqual([]));

  test.each<[string, (index: IndexMonth) => object]>([
    ["verdict", (index) => ({ ...index, rows: index.rows.map((row) => ({ ...row, verdict: "reject" })) })],
    ["loss", (index) => ({ ...index, rows: index.rows.map((row) => ({ ...row, lossPct: 0.01 })) })],
    ["later entry", ({ amendments: _gone, ...index }) => index],
  ])("is named for an edited %s", async (_what, change) => {
    const folder = await station();
    await edited(indexPath(folder, MONTH), change);
    expect(await amissIn(folder)).toContain(MONTH);
  });

  test("is named for an edited row of an amended test", async () => {
    const folder = await station();
    const text = await readFile(amendedPath(folder), "utf8");
    await writeFile(amendedPath(folder), text.replace('"X"', '"Y"'));
    expect(await amissIn(folder)).toEqual(["amended tests"]);
  });
});

describe("what is known of sieves compared with what the log gives", () => {
  test("is fine as it was written, and named where it was edited", async () => {
    const folder = await station();
    const store = await withSet(await opened(folder));
    must(await store.record(weighed("T-3", "2026-11-25T08:31:00+01:00")));
    await store.close();
    expect(await amissIn(folder)).toEqual([]);
    const text = await readFile(careLedgerPath(folder), "utf8");
    await writeFile(careLedgerPath(folder), text.replace('"emptyG":402', '"emptyG":403'));
    expect(await amissIn(folder)).toEqual(["sieves and balances"]);
  });
});

describe("rows drawn by another program", () => {
  test.each([undefined, ROWS_DRAWN + 1])("(%s) are drawn again when they are next read", async (drawnBy) => {
    const folder = await station();
    await edited(indexPath(folder, MONTH), (index) => ({
      ...index,
      drawnBy,
      rows: index.rows.map((row) => ({ ...row, lossPct: 77 })),
    }));
    const store = await opened(folder);
    expect((await store.indexRows(MONTH)).map(({ lossPct }) => lossPct)).not.toContain(77);
    await store.close();
    expect(await amissIn(folder)).toEqual([]);
  });
});

describe("a row that could not be drawn", () => {
  test("is told, and is there after the next opening by a program that can", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder, {
      indexRowOf: (entry) => {
        if (entry.test.testId === "T-1") throw new Error("a fault of the program");
        return indexRowOf(entry);
      },
    });
    await recordedTest(store, "T-1");
    await recordedTest(store, "T-2");
    expect((await store.indexRows(MONTH)).map(({ testId }) => testId)).toEqual(["T-2"]);
    expect(store.problems.join()).toContain("tried again at the next opening");
    await store.close();
    expect(await amissIn(folder)).toContain(MONTH);
    const again = await opened(folder);
    expect((await again.indexRows(MONTH)).map(({ testId }) => testId)).toEqual(["T-1", "T-2"]);
    await again.close();
    expect(await amissIn(folder)).toEqual([]);
  });
});
