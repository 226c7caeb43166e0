import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { must, opened } from "./opened.ts";
import { testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const LATE = "2026-11-24T02:00:00+01:00";
const inLot = (id: string, at: string, lot: string) => {
  const entry = testEntry(id, at);
  return entry.kind === "test" ? { ...entry, test: { ...entry.test, lot } } : entry;
};

/** A station with tests in three months, the older of which have been read. */
async function threeMonths() {
  const folder = await temporaryFolder();
  const store = await opened(folder);
  must(await store.record(inLot("T-1", "2026-09-10T02:00:00+02:00", "SEP-1")));
  must(await store.record(inLot("T-2", "2026-10-10T02:00:00+02:00", "OCT-1")));
  must(await store.record(inLot("T-3", LATE, "NOV-1")));
  for (const month of store.indexMonths()) await store.indexRows(month);
  return { folder, store };
}
const lots = (words: ReadonlyMap<string, { readonly words: readonly string[] }>) =>
  [...words].map(([month, of]) => [month, of.words.filter((word) => /^(SEP|OCT|NOV|NEW)/.test(word))]);

describe("what is known of months without reading them", () => {
  test("is what their rows say, of all months but the one that is written now", async () => {
    const { store } = await threeMonths();
    expect(lots(await store.monthWords())).toEqual([
      ["2026-10", ["OCT-1"]],
      ["2026-09", ["SEP-1"]],
    ]);
  });

  test("is kept over the next start", async () => {
    const { folder, store } = await threeMonths();
    await store.close();
    const again = await opened(folder);
    expect(lots(await again.monthWords())).toHaveLength(2);
  });

  test("goes for a month in which anything was written since, and comes with its next reading", async () => {
    const { store } = await threeMonths();
    must(await store.record(inLot("T-4", "2026-10-11T02:00:00+02:00", "OCT-2")));
    expect(lots(await store.monthWords())).toEqual([["2026-09", ["SEP-1"]]]);
    await store.indexRows("2026-10");
    expect(new Map(await store.monthWords()).get("2026-10")?.words).toContain("OCT-2");
  });

  test("knows the lot that a test bears since a correction recorded in another month", async () => {
    const { store } = await threeMonths();
    const [row] = await store.indexRows("2026-09");
    const history = must(await store.history(row ?? expect.fail("no test")));
    const { test: tested, day, number } = history.entry;
    const change = { field: "lot", from: tested.lot, to: "NEW-9" } as const;
    const of = { testId: tested.testId, day, number };
    const { correctionOf } = await import("../../src/assess/correctionOf.ts");
    const correction = must(correctionOf(history, [change], "wrong label read", "test"));
    must(await store.record({ ...correction, of, at: LATE, by: "KO" }));
    expect(lots(await store.monthWords())).toContainEqual(["2026-09", ["SEP-1", "NEW-9"]]);
  });

  test("is drawn with the index where that is drawn again", async () => {
    const { folder, store } = await threeMonths();
    await store.close();
    rmSync(join(folder, "index"), { recursive: true });
    const again = await opened(folder);
    expect(await again.monthWords()).toEqual(new Map());
    must(await again.reindex());
    expect(lots(await again.monthWords())).toHaveLength(2);
  });

  test("counts for nothing when the file is not as it was written", async () => {
    const { folder, store } = await threeMonths();
    await store.close();
    const path = join(folder, "index", "words.json");
    writeFileSync(path, readFileSync(path, "utf8").replace("SEP-1", "SEP-7"));
    const again = await opened(folder);
    expect(await again.monthWords()).toEqual(new Map());
  });
});
