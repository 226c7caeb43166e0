import { copyFile } from "node:fs/promises";
import { describe, expect, test } from "vitest";
import type { NewEntry } from "../../src/record/logEntry.ts";
import { draftPath } from "../../src/store/layout.ts";
import { must, mustNot, opened } from "./opened.ts";
import { draft, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

function ending(testId: string, at = "2026-11-24T08:40:00+01:00"): NewEntry {
  const { schema: _schema, stage, ...fields } = draft(testId, 2);
  return { kind: "test ended", at, by: "KO", stage, test: fields, reason: "the stack was dropped" };
}

describe("a test ended without a result", () => {
  test("goes on record with all that was entered, and its draft goes", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.saveDraft(draft("T-1", 2)));
    const entry = must(await store.record(ending("T-1")));
    expect(entry).toMatchObject({
      kind: "test ended",
      number: 1,
      stage: "weigh full",
      reason: "the stack was dropped",
    });
    expect(entry).toMatchObject({ test: { weighings: draft("T-1", 2).weighings } });
    expect(store.drafts()).toEqual([]);
    expect(await store.indexRows("2026-11")).toEqual([]);
    expect(mustNot(await store.saveDraft(draft("T-1", 3)))).toContain("is recorded");
  });

  test("is ended once, and nothing else is recorded of it; a recorded test is not ended", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.record(ending("T-1")));
    expect(mustNot(await store.record(ending("T-1")))).toBe(
      "test T-1 was ended without a result, as entry 1 of 2026-11-24",
    );
    expect(mustNot(await store.record(testEntry("T-1")))).toContain("was ended without a result");
    must(await store.record(testEntry("T-2")));
    expect(mustNot(await store.record(ending("T-2")))).toBe("test T-2 is recorded already, as entry 2 of 2026-11-24");
  });

  test("whose draft a kill left behind: the next opening lets it go", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.saveDraft(draft("T-1", 2)));
    await copyFile(draftPath(folder, "T-1"), `${draftPath(folder, "T-1")}.kept`);
    must(await store.record(ending("T-1")));
    await store.close();
    await copyFile(`${draftPath(folder, "T-1")}.kept`, draftPath(folder, "T-1"));
    const next = await opened(folder);
    expect(next.drafts()).toEqual([]);
    expect(next.problems).toEqual([]);
  });

  test("needs a reason in words", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.saveDraft(draft("T-1", 2)));
    expect(mustNot(await store.record({ ...ending("T-1"), reason: "" } as NewEntry))).toContain("needs a reason");
    expect(store.drafts()).toHaveLength(1);
  });
});
