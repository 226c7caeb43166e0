import { cp, readFile, rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { accepted, refused } from "../../src/entry/outcome.ts";
import { Findings } from "../../src/store/findings.ts";
import { dayPath, headPath } from "../../src/store/layout.ts";
import { realDisk } from "../../src/store/realDisk.ts";
import type { Store } from "../../src/store/store.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { deadProcess } from "../faults/deadProcess.ts";
import { ModelDisk } from "../faults/modelDisk.ts";
import { must, opened } from "./opened.ts";
import { note, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const DAY = "2026-11-24";

async function usedStation(): Promise<string> {
  const folder = await temporaryFolder();
  const store = await opened(folder);
  must(await store.record(testEntry("T-1")));
  must(await store.record(note("second")));
  must(await store.record(note("third")));
  await store.close();
  return folder;
}

/** What the log of a station says was found, once all that is under way is done. */
async function found(
  folder: string,
  use: (store: Store) => Promise<unknown> = (store) => store.recentRows(9),
): Promise<string[]> {
  const store = await opened(folder);
  await use(store);
  await store.close();
  const entries = await store.entriesOfDay(DAY);
  return entries.flatMap((entry) => (entry.kind === "finding" ? [`${entry.by}: ${entry.found}`] : []));
}

const withoutLast = async (folder: string): Promise<void> => {
  const path = dayPath(folder, DAY);
  const day = JSON.parse(await readFile(path, "utf8"));
  await writeFile(path, JSON.stringify({ ...day, entries: day.entries.slice(0, -1) }));
};

describe("what an opening finds is in the log for good", () => {
  test("nothing in a station that is as it should be", async () =>
    expect(await found(await usedStation())).toEqual([]));

  test("the last entry gone together with the head: by the missing head and by the index, and once only", async () => {
    const folder = await usedStation();
    await withoutLast(folder);
    await rm(headPath(folder));
    const told = [
      expect.stringMatching(/^program: log\/head\.json was missing; the end of the log was found again from its days/),
      expect.stringMatching(
        /^program: the index knows 3 entries of 2026-11-24, its file holds 2: entries were cut off/,
      ),
    ];
    expect(await found(folder)).toEqual(told);
    expect(await found(folder)).toEqual(told);
    expect(await verifyLog(folder)).toMatchObject({ ok: true, entries: 4 });
  });

  test("the last day gone together with the head", async () => {
    const folder = await usedStation();
    const store = await opened(folder);
    must(await store.record(note("x", "2026-11-25T09:00:00+01:00")));
    await store.close();
    await rm(dayPath(folder, "2026-11-25"));
    await rm(headPath(folder));
    expect(await found(folder)).toContainEqual(
      expect.stringMatching(/^program: the index knows 1 entries of 2026-11-25, whose file is gone from the log/),
    );
  });

  test("also when the first thing done is to draw the index again", async () => {
    const folder = await usedStation();
    await withoutLast(folder);
    await rm(headPath(folder));
    expect(await found(folder, (store) => store.reindex())).toContainEqual(
      expect.stringMatching(/the index knows 3 entries/),
    );
  });

  test("a head that names an entry which is gone", async () => {
    const folder = await usedStation();
    await withoutLast(folder);
    expect(await found(folder)).toContainEqual(
      expect.stringMatching(/^program: entry 3, with which the log ended, is missing/),
    );
  });

  test("an entry that was changed behind the head's back", async () => {
    const folder = await usedStation();
    const path = dayPath(folder, DAY);
    await writeFile(path, (await readFile(path, "utf8")).replace("third", "other"));
    expect(await found(folder)).toContainEqual(expect.stringMatching(/entry 3 is not as it was when it was recorded/));
  });

  test("a program that was not closed: its lock was cleared away", async () => {
    const folder = await usedStation();
    const pid = deadProcess();
    await opened(folder, { pid });
    const [told] = await found(folder);
    expect(told).toBe(
      `program: Sievewright (process ${pid}), open since 2026-11-24 08:00, was not closed: its lock was cleared away`,
    );
  });

  test("a folder that was copied while it was open", async () => {
    const folder = await usedStation();
    await opened(folder);
    const copy = join(await temporaryFolder(), "copy");
    await cp(folder, copy, { recursive: true });
    expect(await found(copy)).toEqual([
      `program: this folder was copied from ${folder} while Sievewright (process ${process.pid}) had that one open since 2026-11-24 08:00`,
    ]);
  });

  test("a file that was set aside, found when it was first asked for", async () => {
    const folder = await usedStation();
    await writeFile(join(folder, "drafts", "T-7.json"), "{");
    expect(await found(folder)).toEqual([
      expect.stringMatching(/^program: drafts\/T-7\.json can't be read: .*T-7\.json\.unreadable/),
    ]);
  });

  test("whoever may only read tells and records nothing", async () => {
    const folder = await usedStation();
    const writer = await opened(folder);
    await rename(headPath(folder), `${headPath(folder)}.away`);
    const reader = await opened(folder);
    expect(reader.problems).toContainEqual(expect.stringMatching(/^log\/head\.json was missing/));
    await reader.close();
    expect((await writer.entriesOfDay(DAY)).filter(({ kind }) => kind === "finding")).toEqual([]);
  });
});

describe("findings on their way", () => {
  const disk = async () => {
    const model = new ModelDisk();
    await model.makeFolder("/station/index");
    return model;
  };
  const tellAll = async (findings: Findings): Promise<string[]> => {
    const told: string[] = [];
    await findings.tell(async (words) => {
      told.push(words);
      return accepted(undefined);
    });
    return told;
  };

  test("wait while they can't be recorded, and are told later, each once", async () => {
    const findings = new Findings("/station", await disk());
    findings.add("one");
    findings.add("two");
    findings.add("one");
    await findings.tell(async (words) => (words === "two" ? refused("full") : accepted(undefined)));
    expect(await tellAll(findings)).toEqual(["two"]);
    expect(await tellAll(findings)).toEqual([]);
  });

  test("are known again after a restart", async () => {
    const model = await disk();
    const before = new Findings("/station", model);
    before.add("one");
    await tellAll(before);
    const after = new Findings("/station", model);
    after.add("one");
    after.add("three");
    expect(await tellAll(after)).toEqual(["three"]);
  });

  test("are told again rather than lost where what was told is unreadable", async () => {
    const model = await disk();
    model.put("/station/index/findings.json", "{");
    const findings = new Findings("/station", model);
    findings.add("one");
    expect(await tellAll(findings)).toEqual(["one"]);
  });

  test("call whoever listens, also for what was found before", () => {
    const findings = new Findings("/nowhere", realDisk);
    findings.add("early");
    let heard = 0;
    findings.onFound(() => {
      heard += 1;
    });
    findings.add("late");
    expect(heard).toBe(2);
  });

  test("fit an entry of the log, whatever a file is called", async () => {
    const findings = new Findings("/station", await disk());
    findings.add(`drafts/\u001b[2J\n${"x".repeat(900)}`);
    const [told = ""] = await tellAll(findings);
    expect(told.length).toBe(400);
    expect(told.startsWith("drafts/?[2J?x")).toBe(true);
  });
});
