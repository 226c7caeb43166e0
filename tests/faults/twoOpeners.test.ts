import { readFile, stat, utimes, writeFile } from "node:fs/promises";
import { hostname } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { verifyLog } from "../../src/store/verify.ts";
import { must, mustNot, opened } from "../store/opened.ts";
import { draft, testEntry } from "../store/records.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";
import { deadProcess } from "./deadProcess.ts";
import { killed, operators } from "./running.ts";

const operator = operators();
const lockOf = (folder: string) => join(folder, "station.lock");

interface LockText {
  pid: number;
  host: string;
  since: string;
  token: string;
  folder: string;
}

async function rewriteLock(folder: string, change: Partial<LockText>): Promise<void> {
  const lock = JSON.parse(await readFile(lockOf(folder), "utf8"));
  await writeFile(lockOf(folder), JSON.stringify({ ...lock, ...change }));
}

/** As if nobody had renewed the lock for so long. */
async function agedBy(folder: string, seconds: number): Promise<void> {
  const then = new Date(Date.now() - seconds * 1000);
  await utimes(lockOf(folder), then, then);
}

test("the second to open reads what the first has written, and is told which process has the station", async () => {
  const folder = await temporaryFolder();
  const first = operator(folder, "A");
  await first.promised("entry");
  const second = await opened(folder);
  expect(second.readOnly).toBe(`another Sievewright (process ${first.child.pid}, since 08:00) has this station open`);
  expect((await second.recentRows(1)).length).toBeGreaterThan(0);
  expect(mustNot(await second.saveDraft(draft("T-1")))).toBe(second.readOnly);
  expect(mustNot(await second.record(testEntry("T-1")))).toBe(second.readOnly);
  expect(mustNot(await second.dropDraft("A-1"))).toBe(second.readOnly);
  expect(mustNot(await second.reindex())).toBe(second.readOnly);
  expect(second.drafts().map(({ testId }) => testId)).not.toContain("T-1");
  await killed(first);
});

test("six that open at the same moment over a lock left behind: one writes, and the log stays one chain", async () => {
  const folder = await temporaryFolder();
  const before = operator(folder, "A");
  await before.promised("entry");
  await killed(before);
  const runs = [1, 2, 3, 4, 5, 6].map((n) => operator(folder, `B${n}`));
  await Promise.all(runs.map((run) => run.promised("open")));
  const writers = runs.filter((run) => run.promises[0] === "open for writing");
  expect(writers).toHaveLength(1);
  await writers[0]?.promised("entry");
  const lines = await Promise.all(runs.map(killed));
  const words =
    /^open another Sievewright (\(process \d+, since 08:00\) has this station open|is just opening this station)$/;
  expect(lines.flat().filter((line) => line.startsWith("open another") && !words.test(line))).toEqual([]);
  expect(await verifyLog(folder)).toMatchObject({ ok: true });
}, 60_000);

test("the same process opening it twice is told its own number", async () => {
  const folder = await temporaryFolder();
  await opened(folder);
  expect((await opened(folder)).readOnly).toContain(`(process ${process.pid}, since 08:00)`);
});

test("closing gives the station free", async () => {
  const folder = await temporaryFolder();
  const first = await opened(folder);
  await first.close();
  expect(mustNot(await first.saveDraft(draft("T-1")))).toBe("this station is closed");
  expect((await opened(folder)).readOnly).toBe(null);
});

test("closing twice leaves the lock of whoever came after alone", async () => {
  const folder = await temporaryFolder();
  for (let round = 0; round < 20; round += 1) {
    const first = await opened(folder);
    const closed = [first.close(), first.close()];
    await closed[0];
    const second = await opened(folder);
    await closed[1];
    expect(second.readOnly).toBe(null);
    must(await second.saveDraft(draft("T-1")));
    await second.close();
  }
});

test("a lock of a process that is gone heals at once", async () => {
  const folder = await temporaryFolder();
  await opened(folder, { pid: deadProcess() });
  expect((await opened(folder)).readOnly).toBe(null);
});

test("an earlier life under the very same process number is gone too", async () => {
  const folder = await temporaryFolder();
  await opened(folder, { pid: deadProcess() });
  await rewriteLock(folder, { pid: process.pid, token: "6f1d3c0a-3b0a-4c53-9a53-0f9e43a4c0de" });
  expect((await opened(folder)).readOnly).toBe(null);
});

test("a lock of another computer holds while it is renewed, and names the computer", async () => {
  const folder = await temporaryFolder();
  await opened(folder);
  await rewriteLock(folder, { host: "TH-MILL", since: "2026-11-23T22:04:00+01:00" });
  const pid = process.pid;
  expect((await opened(folder)).readOnly).toBe(
    `another Sievewright (process ${pid} on TH-MILL, since 2026-11-23 22:04) has this station open`,
  );
});

test.each([
  ["half a minute ago", 31],
  ["a year ago", 365 * 86_400],
  ["in an hour, for a clock was set back", -3600],
])("a lock of another computer that was last renewed %s heals", async (_, seconds) => {
  const folder = await temporaryFolder();
  await opened(folder);
  await rewriteLock(folder, { host: "TH-MILL" });
  await agedBy(folder, seconds);
  expect((await opened(folder)).readOnly).toBe(null);
});

test("a lock that was copied along with a folder of this computer does not hold the copy", async () => {
  const folder = await temporaryFolder();
  await opened(folder);
  await rewriteLock(folder, { folder: join(folder, "..", "where it was copied from"), host: hostname() });
  expect((await opened(folder)).readOnly).toBe(null);
});

test.each(["", "{", "null", "\u0000\u0000\u0000", '{"pid":1}'])(
  "a lock that says %j holds while it is fresh, and heals when it is old",
  async (text) => {
    const folder = await temporaryFolder();
    await (await opened(folder)).close();
    await writeFile(lockOf(folder), text);
    expect((await opened(folder)).readOnly).toBe("another Sievewright is just opening this station");
    await agedBy(folder, 31);
    expect((await opened(folder)).readOnly).toBe(null);
  },
);

test("who lost the station while asleep saves nothing more, says so, and leaves the lock to the other", async () => {
  const folder = await temporaryFolder();
  const asleep = await opened(folder);
  must(await asleep.saveDraft(draft("T-1", 1)));
  await agedBy(folder, 60);
  const other = await opened(folder, { pid: deadProcess() });
  expect(other.readOnly).toBe(null);
  must(await other.saveDraft(draft("T-1", 3)));

  const reason = mustNot(await asleep.saveDraft(draft("T-1", 2)));
  expect(reason).toMatch(/^another Sievewright \(process \d+, since 08:00\) has this station open: it took over/);
  expect(asleep.readOnly).toBe(reason);
  expect(mustNot(await asleep.record(testEntry("T-1")))).toBe(reason);
  await asleep.close();
  expect(JSON.parse(await readFile(join(folder, "drafts", "T-1.json"), "utf8"))).toEqual(draft("T-1", 3));
  must(await other.saveDraft(draft("T-1", 4)));
});

test("a lock that somebody deleted is not taken for granted", async () => {
  const folder = await temporaryFolder();
  const store = await opened(folder);
  await writeFile(lockOf(folder), "");
  expect(mustNot(await store.saveDraft(draft("T-1")))).toMatch(/^the lock of this station is gone/);
});

test("the lock is renewed while the station is open", async () => {
  const folder = await temporaryFolder();
  const store = await opened(folder);
  await agedBy(folder, 20);
  const before = await readFile(lockOf(folder), "utf8");
  await expect.poll(() => lockAgeMs(folder), { timeout: 8000, interval: 100 }).toBeLessThan(15_000);
  expect(await readFile(lockOf(folder), "utf8")).toBe(before);
  must(await store.saveDraft(draft("T-1")));
}, 10_000);

async function lockAgeMs(folder: string): Promise<number> {
  return Date.now() - (await stat(lockOf(folder))).mtimeMs;
}
