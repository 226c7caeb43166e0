import { readFile, writeFile } from "node:fs/promises";
import { dirname } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { DayFile, Head, LogEntry } from "../../src/record/logEntry.ts";
import { sealOf } from "../../src/record/seal.ts";
import { chained } from "../../src/store/chained.ts";
import { dayPath, headPath, indexPath } from "../../src/store/layout.ts";
import { type Verified, type VerifyOptions, verifyLog } from "../../src/store/verify.ts";
import { ModelDisk } from "../faults/modelDisk.ts";
import { chainOf } from "./chain.ts";
import { must, opened } from "./opened.ts";
import { note, testEntry } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const COUNTS = { "2026-10-31": 2, "2026-11-24": 3, "2026-11-25": 2, "2027-01-01": 2 };
const sound = () => structuredClone(chainOf(COUNTS));

type Files = { days: DayFile[]; head: Head | null };

/** What an index drawn from these days knows of them, by month. */
function indexOf(days: readonly DayFile[]): Record<string, object> {
  const months: Record<string, { days: Record<string, object>; rows: object[] }> = {};
  for (const { day, entries } of days) {
    months[day.slice(0, 7)] ??= { days: {}, rows: [] };
    months[day.slice(0, 7)]!.days[day] = { entries: entries.length, lastSeal: sealOf(entries.at(-1)!) };
  }
  return months;
}

async function diskWith({ days, head }: Files): Promise<ModelDisk> {
  const disk = new ModelDisk();
  for (const day of days) {
    await disk.makeFolder(dirname(dayPath("/station", day.day)));
    disk.put(dayPath("/station", day.day), JSON.stringify(day));
  }
  await disk.makeFolder("/station/log");
  if (head !== null) disk.put(headPath("/station"), JSON.stringify(head));
  disk.steps.length = 0;
  return disk;
}

const verified = async (files: Files): Promise<Verified> => verifyLog("/station", await diskWith(files));

/** What is found in a log that was damaged while its index stayed as it was before. */
async function besideIndex(change: (files: Files) => void, options: VerifyOptions = {}): Promise<Verified> {
  const files: Files = sound();
  const index = indexOf(files.days);
  change(files);
  const disk = await diskWith(files);
  await disk.makeFolder("/station/index");
  for (const [month, known] of Object.entries(index)) disk.put(indexPath("/station", month), JSON.stringify(known));
  return verifyLog("/station", disk, options);
}

const inWords = ({ firstBroken: broken }: Verified): string => `${broken?.file} ${broken?.entry} ${broken?.how}`;

/** Makes all seals after an entry anew, as somebody would who knows how. */
function resealed({ days }: Files, from: number): void {
  const entries = days.flatMap((day) => day.entries);
  for (let i = from; i < entries.length; i += 1) Object.assign(entries[i]!, { previous: sealOf(entries[i - 1]!) });
}

/** What is found after this was done to a sound log of nine entries in four days. */
async function brokenBy(change: (files: Files) => void): Promise<string> {
  const files: Files = sound();
  change(files);
  const { ok, firstBroken } = await verified(files);
  expect(ok).toBe(false);
  return `${firstBroken?.file} ${firstBroken?.entry} ${firstBroken?.how}`;
}

const dayOf = ({ days }: Files, day: string) => days.find((one) => one.day === day)!;

describe("a log as it was recorded", () => {
  test("is sound, and its head is the last entry with its seal", async () => {
    const { days, head } = sound();
    expect(await verified({ days, head })).toEqual({
      entries: 9,
      ok: true,
      head: { number: 9, seal: head.seal },
    });
  });

  test("without an entry is sound", async () => {
    expect(await verified({ days: [], head: null })).toEqual({ entries: 0, ok: true, head: null });
  });

  test("is sound with a head that a crash left behind", async () => {
    const { days } = sound();
    const { head } = chainOf({ "2026-10-31": 2, "2026-11-24": 3, "2026-11-25": 2, "2027-01-01": 1 });
    expect((await verified({ days, head })).ok).toBe(true);
  });

  test("is sound when a clock that was set back spread the numbers over the days", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    for (const day of ["2026-11-25", "2026-11-24", "2026-11-25", "2099-01-01", "2026-11-24", "2010-01-01"])
      must(await store.record(note(day, `${day}T10:00:00+01:00`)));
    expect(await verifyLog(folder)).toMatchObject({ ok: true, entries: 6, head: { number: 6 } });
  });

  test("is sound however it is spaced and whatever the order of its fields", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.record(testEntry("T-1")));
    must(await store.record(note("x")));
    const entries = await store.entriesOfDay("2026-11-24");
    const turned = entries.map((entry) => Object.fromEntries(Object.entries(entry).reverse()));
    const day = { entries: turned, day: "2026-11-24", schema: "sievewright.day/1" };
    await writeFile(dayPath(folder, "2026-11-24"), JSON.stringify(day, null, 9));
    expect(await verifyLog(folder)).toMatchObject({ ok: true, entries: 2 });
  });

  test("is only read, and without a lock", async () => {
    const { days, head } = sound();
    const disk = await diskWith({ days, head });
    await verifyLog("/station", disk);
    expect(new Set(disk.steps.map(({ call }) => call))).toEqual(new Set(["read", "list"]));
  });
});

describe("an entry that was changed", () => {
  test("in the middle of a day", async () =>
    expect(await brokenBy((files) => Object.assign(dayOf(files, "2026-11-24").entries[1]!, { text: "other" }))).toBe(
      "log/2026/11/2026-11-24.json 4 changed: entry 4 is not as it was recorded, for entry 5 holds another seal of it",
    ));

  test("at the end of a day, which only the next day tells", async () =>
    expect(await brokenBy((files) => Object.assign(dayOf(files, "2026-11-24").entries[2]!, { by: "XX" }))).toBe(
      "log/2026/11/2026-11-24.json 5 changed: entry 5 is not as it was recorded, for entry 6 holds another seal of it",
    ));

  test("at the very end, which only the head tells", async () =>
    expect(await brokenBy((files) => Object.assign(dayOf(files, "2027-01-01").entries[1]!, { by: "XX" }))).toBe(
      "log/2027/01/2027-01-01.json 9 changed: entry 9 is not as it was recorded, for log/head.json holds another seal of it",
    ));

  test("at the very beginning, given a past that it has not", async () =>
    expect(
      await brokenBy((files) => {
        Object.assign(dayOf(files, "2026-10-31").entries[0]!, { previous: "a".repeat(64) });
        resealed(files, 1);
      }),
    ).toBe("log/2026/10/2026-10-31.json 1 changed: entry 1 is the first, yet it holds the seal of an entry before it"));

  test("by a field that no schema knows", async () =>
    expect(await brokenBy((files) => Object.assign(dayOf(files, "2026-11-24").entries[0]!, { more: 1 }))).toMatch(
      / 3 changed: entry 3 is not/,
    ));

  test("by a name that objects inherit", async () => {
    const files = sound();
    const text = JSON.stringify(files.days[1]).replace('"kind"', '"__proto__":{"x":1},"kind"');
    files.days[1] = JSON.parse(text);
    expect((await verified(files)).firstBroken?.entry).toBe(3);
  });

  test("with all seals after it made anew shows by the head", async () => {
    const files: Files = sound();
    Object.assign(files.days.flatMap((day) => day.entries)[3]!, { by: "XX" });
    resealed(files, 4);
    expect((await verified(files)).firstBroken).toMatchObject({ entry: 9, how: expect.stringContaining("head.json") });
  });

  test("and with a head made anew as well differs from the head that was written down", async () => {
    const before = await verified(sound());
    const files = sound();
    const entries = files.days.flatMap((day) => day.entries);
    Object.assign(entries[3]!, { by: "XX" });
    resealed(files, 4);
    const after = await verified({ ...files, head: { ...files.head, seal: sealOf(entries[8]!) } });
    expect(after.ok).toBe(true);
    expect(after.head).not.toEqual(before.head);
  });
});

describe("an entry that is gone", () => {
  test("from the middle of a day", async () =>
    expect(await brokenBy((files) => dayOf(files, "2026-11-24").entries.splice(1, 1))).toBe(
      "log/2026/11/2026-11-24.json 4 missing: entry 4 is gone",
    ));

  test("from the beginning of the log", async () =>
    expect(await brokenBy((files) => dayOf(files, "2026-10-31").entries.shift())).toBe(
      "log/2026/10/2026-10-31.json 1 missing: entry 1 is gone from its beginning, or with a day's file before it",
    ));

  test("from the end of the log", async () =>
    expect(await brokenBy((files) => dayOf(files, "2027-01-01").entries.pop())).toBe(
      "log/2027/01/2027-01-01.json 9 truncated: entry 9 is gone from the end of the log, for log/head.json knows entry 9 in this file",
    ));

  test("with its whole day", async () =>
    expect(await brokenBy((files) => files.days.splice(1, 1))).toBe(
      "log/2026/10/2026-10-31.json 3 missing: entries 3 to 5 are gone from its end, from the beginning of log/2026/11/2026-11-25.json, or with a day's file between the two",
    ));

  test("with the last day", async () =>
    expect(await brokenBy((files) => files.days.pop())).toBe(
      "log/2027/01/2027-01-01.json 8 truncated: entries 8 to 9 are gone from the end of the log, for log/head.json knows entry 9 in this file",
    ));

  test("with all days", async () =>
    expect(await brokenBy((files) => files.days.splice(0))).toBe(
      "log/2027/01/2027-01-01.json 1 truncated: entries 1 to 9 are gone from the end of the log, for log/head.json knows entry 9 in this file",
    ));

  test("cannot be told without a head, and that is told", async () =>
    expect(
      await brokenBy((files) => {
        files.head = null;
      }),
    ).toBe("log/head.json 10 missing: the file is gone, so nothing tells whether entries from 10 on were cut off"));
});

describe("entries out of order", () => {
  test("swapped within a day", async () =>
    expect(await brokenBy((files) => dayOf(files, "2026-11-24").entries.reverse())).toMatch(
      /^log\/2026\/11\/2026-11-24\.json 3 reordered: entry 3 stands behind entry 4/,
    ));

  test("moved to another day", async () =>
    expect(
      await brokenBy((files) => {
        const [moved] = dayOf(files, "2026-11-25").entries.splice(0, 1);
        dayOf(files, "2026-11-24").entries.push(moved!);
      }),
    ).toBe(
      "log/2026/11/2026-11-24.json 6 reordered: entry 6 belongs to 2026-11-25 and lies in the file of 2026-11-24",
    ));

  test("there twice", async () =>
    expect(
      await brokenBy((files) => {
        const { entries } = dayOf(files, "2026-11-24");
        entries.push(structuredClone(entries[2]!));
      }),
    ).toMatch(/2026-11-24\.json 5 reordered: entry 5 is there twice/));

  test("a day under the name of another", async () => {
    const files = sound();
    files.days[1] = { ...files.days[1]!, day: "2026-11-23" };
    expect((await verified(files)).firstBroken).toMatchObject({ file: "log/2026/11/2026-11-23.json", entry: 3 });
  });
});

describe("an end that was cut off together with its head", () => {
  const withoutHead = (cut: (files: Files) => void) => (files: Files) => {
    cut(files);
    files.head = null;
  };

  test("shows by the index: how many entries are gone from which file", async () =>
    expect(inWords(await besideIndex(withoutHead((files) => dayOf(files, "2027-01-01").entries.pop())))).toBe(
      "log/2027/01/2027-01-01.json 9 truncated: 1 entry is gone from this file, for the index knows 2 in it",
    ));

  test("and a whole day likewise", async () =>
    expect(inWords(await besideIndex(withoutHead((files) => files.days.pop())))).toBe(
      "log/2027/01/2027-01-01.json 8 truncated: this file is gone, and the index knows entries in it",
    ));

  test("shows by the index even under a head that was made to fit", async () => {
    const { head } = chainOf({ "2026-10-31": 2, "2026-11-24": 3, "2026-11-25": 2, "2027-01-01": 1 });
    const found = await besideIndex((files) => {
      dayOf(files, "2027-01-01").entries.pop();
      files.head = head;
    });
    expect(inWords(found)).toMatch(/^log\/2027\/01\/2027-01-01\.json 9 truncated: 1 entry is gone from this file/);
  });

  test("shows by a copy that knows more", async () => {
    const disk = await diskWith({ days: sound().days.slice(0, 3), head: null });
    const copy = { who: "the copy of 2027-01-01 10:00", number: 9, seal: sound().head.seal.slice(0, 12), madeMs: 5 };
    expect(inWords(await verifyLog("/station", disk, { witnesses: [copy] }))).toBe(
      "log/2026/11/2026-11-25.json 8 truncated: entries 8 to 9 are gone from the end of the log, for the copy of 2027-01-01 10:00 knows entry 9",
    );
  });

  test("is no cut where the log says itself that an older copy took its place", async () => {
    const files: Files = sound();
    const at = "2027-01-02T08:00:00+01:00";
    const head = { number: 9, seal: files.head!.seal };
    const replaced = { number: 30, seal: "a".repeat(64), keptIn: "old" };
    const entry = { kind: "restored", at, by: "SB", from: "copy.tgz", sha256: "b".repeat(64), head, replaced } as const;
    const { sealed, end } = must(chained(files.head!, "2027-01-02", "TH-DRY1", [entry]));
    files.days.push({ schema: "sievewright.day/1", day: "2027-01-02", entries: [...sealed] });
    const disk = await diskWith({ days: files.days, head: end });
    const copyOf = (madeMs: number) => ({ who: "a copy", number: 30, seal: "aaaa", madeMs });
    const before = copyOf(Date.parse(at) - 1);
    const after = copyOf(Date.parse(at) + 1);
    expect((await verifyLog("/station", disk, { witnesses: [before] })).ok).toBe(true);
    expect((await verifyLog("/station", disk, { witnesses: [after] })).ok).toBe(false);
  });

  test("a log that lost nothing agrees with index and copies", async () => {
    const { seal } = sound().head;
    const witnesses = [{ who: "a copy", number: 9, seal: seal.slice(0, 12) }];
    expect(await besideIndex(() => undefined, { witnesses, index: true })).toEqual({
      entries: 9,
      ok: true,
      head: { number: 9, seal },
      indexAmiss: [],
    });
  });

  test("a copy with another seal of an entry shows that the entry was changed", async () =>
    expect(
      inWords(await besideIndex(() => undefined, { witnesses: [{ who: "a copy", number: 4, seal: "0123" }] })),
    ).toBe(
      "log/2026/11/2026-11-24.json 4 changed: entry 4 is not as it was recorded, for a copy holds another seal of it",
    ));
});

describe("the index beside the log", () => {
  test("names the file that a missing day had", async () =>
    expect(inWords(await besideIndex((files) => files.days.splice(1, 1), { index: true }))).toBe(
      "log/2026/11/2026-11-24.json 3 missing: entries 3 to 5 are gone with this file, which the index knows",
    ));

  test("that lags behind is no break, and is named where that is asked", async () => {
    const disk = await diskWith(sound());
    await disk.makeFolder("/station/index");
    const behind = indexOf(sound().days.slice(0, 3));
    for (const [month, known] of Object.entries(behind)) disk.put(indexPath("/station", month), JSON.stringify(known));
    expect(await verifyLog("/station", disk, { index: true })).toMatchObject({ ok: true, indexAmiss: ["2027-01"] });
  });

  test("that lacks the row of a test, or has one too many, is named", async () => {
    const folder = await temporaryFolder();
    const store = await opened(folder);
    must(await store.record(testEntry("T-1")));
    await store.close();
    expect(await verifyLog(folder, undefined, { index: true })).toMatchObject({ ok: true, indexAmiss: [] });
    const path = indexPath(folder, "2026-11");
    const index = JSON.parse(await readFile(path, "utf8"));
    await writeFile(path, JSON.stringify({ ...index, rows: [] }));
    expect((await verifyLog(folder, undefined, { index: true })).indexAmiss).toEqual(["2026-11"]);
    await writeFile(path, JSON.stringify({ ...index, rows: [...index.rows, { ...index.rows[0], number: 2 }] }));
    expect((await verifyLog(folder, undefined, { index: true })).indexAmiss).toEqual(["2026-11"]);
  });

  test.each(["", "{", "null", '{"days":1}'])("that reads %j is passed over", async (text) => {
    const disk = await diskWith(sound());
    await disk.makeFolder("/station/index");
    disk.put(indexPath("/station", "2027-01"), text);
    expect((await verifyLog("/station", disk)).ok).toBe(true);
  });
});

test("the days of a log are read one after another, and never two are held", async () => {
  const disk = await diskWith(sound());
  const seen: string[] = [];
  const read = disk.read.bind(disk);
  disk.read = async (path) => {
    if (path.startsWith("/station/log/2")) seen.push(`read ${path}`);
    return read(path);
  };
  await verifyLog("/station", disk, { passing: ({ number }) => void seen.push(`entry ${number}`) });
  const days = seen.filter((step) => step.startsWith("read"));
  expect(days).toHaveLength(4);
  for (const day of days.slice(1)) expect(seen[seen.indexOf(day) - 1]).toMatch(/^entry/);
});

describe("a day that can't be read", () => {
  const withDay = async (text: string | Uint8Array): Promise<Verified> => {
    const { days, head } = sound();
    const disk = new ModelDisk();
    for (const day of days) {
      await disk.makeFolder(dirname(dayPath("/station", day.day)));
      disk.put(dayPath("/station", day.day), day.day === "2026-11-24" ? text : JSON.stringify(day));
    }
    disk.put(headPath("/station"), JSON.stringify(head));
    return verifyLog("/station", disk);
  };

  test.each([
    ["", "unreadable: the file is not JSON"],
    ["{", "unreadable: the file is not JSON"],
    ["null", "unreadable: the file is no day of a log"],
    ['{"schema":"sievewright.day/1","entries":[{"number":"3"}]}', "unreadable: the file is no day of a log"],
    ['{"schema":"sievewright.draft/1","entries":[]}', "unreadable: the file is no day of a log"],
  ])("%j breaks the log where its first entry should be", async (text, how) =>
    expect(await withDay(text)).toMatchObject({
      ok: false,
      entries: 6,
      firstBroken: { file: "log/2026/11/2026-11-24.json", entry: 3, how },
    }),
  );

  test("bytes that are no UTF-8 likewise", async () =>
    expect((await withDay(new Uint8Array([0xff, 0xfe]))).firstBroken?.how).toBe("unreadable: the file is not JSON"));
});

test("any one change of any one entry shows, wherever it is", () =>
  fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 0, max: 8 }),
      fc.constantFrom<(entry: LogEntry) => void>(
        (entry) => Object.assign(entry, { at: "2026-11-24T09:00:01+01:00" }),
        (entry) => Object.assign(entry, { by: "XX" }),
        (entry) => Object.assign(entry, { station: "TH-MILL" }),
        (entry) => Object.assign(entry, { previous: "b".repeat(64) }),
        (entry) => Object.assign(entry, { number: entry.number + 1 }),
        (entry) => Object.assign(entry, { number: entry.number + 100 }),
        (entry) => Object.assign(entry, { day: "2020-01-01" }),
        (entry) => Object.assign(entry, { kind: "test" }),
        (entry) => Object.assign(entry, { text: "something else" }),
      ),
      async (at, change) => {
        const files = sound();
        change(files.days.flatMap((day) => day.entries)[at]!);
        const { ok, firstBroken } = await verified(files);
        expect(ok).toBe(false);
        expect(firstBroken?.entry).toBeGreaterThanOrEqual(at);
        expect(firstBroken?.entry).toBeLessThanOrEqual(at + 2);
      },
    ),
  ));
