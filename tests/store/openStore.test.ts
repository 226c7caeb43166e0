import { describe, expect, test } from "vitest";
import { must, opened } from "./opened.ts";
import { draft, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

describe("a station's folder", () => {
  test("smoke", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    expect(store.readOnly).toBe(null);
    must(await store.saveDraft(draft("T-1", 2)));
    const entry = must(await store.record(testEntry("T-1")));
    expect(entry).toMatchObject({ number: 1, day: "2026-11-24" });
    expect(store.drafts()).toEqual([]);
    expect(await store.indexRows("2026-11")).toHaveLength(1);
    expect(store.problems).toEqual([]);
    await store.close();
    const again = await opened(folder);
    expect(again.readOnly).toBe(null);
    expect(again.problems).toEqual([]);
    expect(await again.recentRows(10)).toHaveLength(1);
  });
});
