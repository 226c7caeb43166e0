import { hostname } from "node:os";
import { describe, expect, onTestFinished, test } from "vitest";
import { holderEnded, takeLock } from "../../src/store/lock.ts";
import { deadProcess } from "../faults/deadProcess.ts";
import { fault, ModelDisk } from "../faults/modelDisk.ts";
import { must, mustNot } from "./opened.ts";
import { now } from "./records.ts";

const PATH = "/station/station.lock";
const TURN = `${PATH}.clearing`;

async function stationDisk(): Promise<ModelDisk> {
  const disk = new ModelDisk();
  await disk.makeFolder("/station");
  return disk;
}

async function take(disk: ModelDisk, pid = process.pid) {
  const lock = await takeLock("/station", disk, pid, now());
  onTestFinished(async () => {
    if (lock.ok) await lock.value.release();
  });
  return lock;
}

const lockText = (change: object) =>
  JSON.stringify({
    schema: "sievewright.lock/1",
    pid: 4711,
    host: "TH-MILL",
    since: now(),
    token: "6f1d3c0a-3b0a-4c53-9a53-0f9e43a4c0de",
    folder: "/station",
    ...change,
  });

const leftBehind = () => lockText({ pid: deadProcess(), host: hostname() });

describe("taking the lock", () => {
  test("writes who has it, and leaves nothing else behind", async () => {
    const disk = await stationDisk();
    must(await take(disk));
    expect(JSON.parse(disk.textAt(PATH) ?? "")).toMatchObject({ pid: process.pid, host: hostname(), since: now() });
    expect(disk.paths()).toEqual([PATH]);
  });

  test("over one that was left behind leaves only its own", async () => {
    const disk = await stationDisk();
    disk.put(PATH, leftBehind());
    must(await take(disk));
    expect(JSON.parse(disk.textAt(PATH) ?? "")).toMatchObject({ pid: process.pid });
    expect(disk.paths()).toEqual([PATH]);
  });

  test("looks again before it clears one away: a quicker one may have taken the station meanwhile", async () => {
    const disk = await stationDisk();
    disk.put(PATH, leftBehind());
    const quicker = lockText({});
    disk.interference = ({ call, path }) => {
      if (call === "create" && path === TURN) disk.put(PATH, quicker);
      return null;
    };
    expect(mustNot(await take(disk))).toContain("(process 4711 on TH-MILL, since 08:00)");
    expect(disk.textAt(PATH)).toBe(quicker);
    expect(disk.paths()).toEqual([PATH]);
  });

  test("waits for its turn to clear, and gives up with a word when the turn does not come", async () => {
    const disk = await stationDisk();
    disk.put(PATH, leftBehind());
    disk.put(TURN, "");
    expect(mustNot(await take(disk))).toBe("another Sievewright is just opening this station");
    expect(disk.textAt(PATH)).not.toBe(null);
  });

  test("takes a turn that was left behind itself", async () => {
    const disk = await stationDisk();
    disk.put(PATH, leftBehind());
    disk.put(TURN, "");
    await disk.pause(31_000);
    must(await take(disk));
    expect(disk.paths()).toEqual([PATH]);
  });

  test("goes on when the other gives the station free at that moment", async () => {
    const disk = await stationDisk();
    disk.put(PATH, leftBehind());
    disk.interference = ({ call, path }) => {
      if (call === "create" && path === TURN) disk.takeAway(PATH);
      return null;
    };
    must(await take(disk));
  });

  test.each(["EACCES", "EROFS", "ENOSPC"])("is refused in words where nothing can be written (%s)", async (code) => {
    const disk = await stationDisk();
    disk.interference = ({ call }) => (call === "create" ? fault(code) : null);
    expect(mustNot(await take(disk))).toMatch(
      new RegExp(`^this station can't be opened for writing: .+\\(${code}\\)$`),
    );
  });
});

describe("holding the lock", () => {
  test("is confirmed without reading the file while its time has not changed", async () => {
    const disk = await stationDisk();
    const lock = must(await take(disk));
    expect(await lock.confirm()).toBe(null);
    disk.steps.length = 0;
    expect(await lock.confirm()).toBe(null);
    expect(disk.steps).toEqual([]);
  });

  test("ends for good when the file is another's, even if it came back", async () => {
    const disk = await stationDisk();
    const lock = must(await take(disk));
    const mine = disk.textAt(PATH) ?? "";
    disk.put(PATH, lockText({}));
    const lost = await lock.confirm();
    expect(lost).toMatch(
      /^another Sievewright \(process 4711 on TH-MILL, since 08:00\) has this station open: it took over/,
    );
    disk.put(PATH, mine);
    expect(await lock.confirm()).toBe(lost);
  });

  test("ends when the file is gone", async () => {
    const disk = await stationDisk();
    disk.put("/station/station.json", "{}");
    const lock = must(await take(disk));
    disk.takeAway(PATH);
    expect(await lock.confirm()).toMatch(/^the lock of this station is gone/);
  });

  test("neither ends nor holds while the whole station is gone, as with its disk; it is asked again afterwards", async () => {
    const disk = await stationDisk();
    disk.put("/station/station.json", "{}");
    const lock = must(await take(disk));
    const mine = disk.textAt(PATH) ?? "";
    for (const path of disk.paths()) disk.takeAway(path);
    await expect(lock.confirm()).rejects.toMatchObject({ code: "ENOENT" });
    disk.put("/station/station.json", "{}");
    disk.put(PATH, mine);
    expect(await lock.confirm()).toBe(null);
    disk.put(PATH, lockText({}));
    expect(await lock.confirm()).toMatch(/^another Sievewright \(process 4711/);
  });
});

describe("giving it back", () => {
  test("removes the file", async () => {
    const disk = await stationDisk();
    await must(await take(disk)).release();
    expect(disk.paths()).toEqual([]);
  });

  test("leaves another's file alone", async () => {
    const disk = await stationDisk();
    const lock = must(await take(disk));
    disk.put(PATH, lockText({}));
    await lock.release();
    expect(disk.textAt(PATH)).toBe(lockText({}));
  });

  test("does not mind a disk that fails", async () => {
    const disk = await stationDisk();
    const lock = must(await take(disk));
    disk.interference = () => fault("EIO");
    await expect(lock.release()).resolves.toBeUndefined();
  });
});

describe("whoever has a station open", () => {
  test.each([
    ["a process of this host that is gone", () => leftBehind(), true],
    ["a process that runs here", () => lockText({ pid: process.ppid, host: hostname() }), false],
    ["a process of another host, of which nothing is known", () => lockText({ pid: deadProcess() }), false],
    ["a lock that can't be read", () => "{", false],
  ])("has ended or not: %s", async (_who, text, hasEnded) => {
    const disk = await stationDisk();
    disk.put(PATH, text());
    expect(await holderEnded("/station", disk)).toBe(hasEnded);
    expect(disk.paths()).toEqual([PATH]);
  });

  test("has not ended where there is no lock: a disk that can't be written has none", async () =>
    expect(await holderEnded("/station", await stationDisk())).toBe(false));
});
