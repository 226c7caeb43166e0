// Faults of the disk beneath the built program: made by a file layer put under it, by the account's limits, by real disks.
import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, renameSync, rmdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, onTestFinished, test, vi } from "vitest";
import { builtRun } from "../commands/realProcess.ts";
import { FULL_G } from "../run/hands.ts";
import { recordedEntry } from "../screens/stage.ts";
import { must } from "../store/opened.ts";
import { type Operator, operatorsLeave, startOperator } from "../terminal/operator.ts";
import { opened, QUICK_SAND, stationFolder } from "../terminal/stationOf.ts";
import { beneath, type FaultBeneath } from "./beneath.ts";
import {
  draftOnDisk,
  fullOnDisk,
  halfWeighed,
  resumed,
  SOUND,
  signs,
  soundness,
  stationInWork,
  typedG,
  weighed,
  weighsFull,
} from "./inWork.ts";

vi.setConfig({ testTimeout: 90_000 });
afterEach(operatorsLeave);

const PROGRAM = fileURLToPath(new URL("../../dist/sievewright.mjs", import.meta.url));
const FULL = /not on disk: .*the last entry is not saved yet: the disk is full\. Free some space and try again/;
const READ_ONLY = /the last entry is not saved yet: the disk can only be read\. Use another folder/;

/** A message as one line, however the window breaks it. */
const messageOf = (op: Operator): string => op.screen().slice(-8).join(" ").replace(/\s+/g, " ");

/** Weighs one row, and waits for what is said of the disk. */
async function weighsBadly(op: Operator, row: number, told: RegExp): Promise<void> {
  await op.scans(typedG(FULL_G[row] ?? 0));
  await vi.waitFor(() => expect(messageOf(op)).toMatch(told), { timeout: 20_000, interval: 20 });
}

describe("a file layer that fails beneath the screens", () => {
  const DRAFT = "drafts/.+[.]tmp$";
  const FAULTS: readonly (readonly [FaultBeneath, RegExp])[] = [
    [{ call: "write", path: DRAFT, code: "ENOSPC", bytes: "half" }, FULL],
    [
      { call: "write", path: DRAFT, code: "EIO", bytes: "butOne" },
      /the disk reports a fault\. Copy the station's folder to another disk now/,
    ],
    [
      { call: "create", path: DRAFT, code: "EACCES", times: 99 },
      /this account has no right to it\. Have the rights of the folder put right/,
    ],
    [{ call: "flush", path: DRAFT, code: "EROFS" }, READ_ONLY],
    [
      { call: "rename", path: "drafts/.+[.]json$", code: "EBUSY" },
      /another program holds the file\. Try again; if it stays so, look for a virus scanner/,
    ],
  ];

  test("each weighing that can't be saved is told, stays on the screen, and is saved with the first that can", async () => {
    const below = beneath();
    const folder = await stationInWork();
    const op = await resumed(folder, { env: below.env });
    for (const [row, [fault, told]] of FAULTS.entries()) {
      below.fails({ times: 99, ...fault }); // it is tried again meanwhile
      await weighsBadly(op, row, told);
      expect(op.screen().join("\n")).toContain(typedG(FULL_G[row] ?? 0));
      expect(fullOnDisk(folder)).toEqual(weighed(0)); // the old draft, whole
    }
    below.fails();
    await op.scans(typedG(FULL_G[5] ?? 0));
    await op.sees("TEST VALID");
    await vi.waitFor(() => expect(fullOnDisk(folder)).toEqual(weighed(6)), { timeout: 10_000 });
    expect(await soundness(folder)).toEqual(SOUND);
  });

  test("a rename refused three times, as by a scanner on Windows, goes unnoticed", async () => {
    const below = beneath();
    const folder = await stationInWork();
    const op = await resumed(folder, { env: below.env });
    below.fails({ call: "rename", path: "drafts/.+[.]json$", code: "EPERM", times: 3 });
    await weighsFull(op, 0, 2);
    expect(messageOf(op)).not.toContain("not on disk");
    expect(fullOnDisk(folder)).toEqual(weighed(2));
  });

  test("a test that can't be recorded stays in work, and is recorded once, when it can be", async () => {
    const below = beneath();
    const folder = await stationFolder([QUICK_SAND], [recordedEntry(1)]);
    const store = await opened(folder);
    must(await store.saveDraft(halfWeighed(6)));
    await store.close();
    const op = await resumed(folder, { env: below.env }, "TEST VALID");
    await signs(op);
    below.fails({ call: "write", path: "log/\\d.+[.]tmp$", code: "ENOSPC", bytes: "inCharacter" });
    await op.presses("enter");
    await op.sees(/not recorded: the entry is not recorded: the disk is full\. Free\s+some space and\s+try again/);
    expect(draftOnDisk(folder)?.lot).toBe("4471-B");
    expect(await soundness(folder)).toEqual(SOUND);
    below.fails();
    await op.presses("enter");
    await op.sees(/recorded as no[.] \d+/);
    expect(draftOnDisk(folder)).toBe(null);
    await op.presses("ctrl+c");
    await op.exit();
    const again = await opened(folder);
    expect((await again.recentRows(99)).map(({ lot }) => lot)).toEqual(["4471-B", "4470-A"]);
    await again.close();
    expect(await soundness(folder)).toEqual(SOUND);
  });

  test.each([
    [
      "EROFS",
      /read only: this station can't be opened for writing: the disk can only be read\. Use another folder \(--data\)/,
    ],
    [
      "EACCES",
      /read only: this station can't be opened for writing: this account has no right to it\. Have the rights/,
    ],
  ])("a data folder that takes no lock (%s) opens for reading, says why, and changes nothing", async (code, told) => {
    const below = beneath();
    const folder = await stationInWork(2);
    below.fails({ call: "create", path: "", code }, { call: "makeFolder", path: "", code });
    const op = await startOperator({ args: ["--data", folder], env: below.env });
    await op.sees("read only:");
    expect(op.screen().join(" ").replace(/\s+/g, " ")).toMatch(told);
    await op.sees(/resume +TH-0510/);
    await op.presses("ctrl+c");
    expect(await op.exit()).toBe(0);
    expect(fullOnDisk(folder)).toEqual(weighed(2));
    expect(await soundness(folder)).toEqual(SOUND);
  });

  test("a command says in one line what is not done and what to do, fails, and works when the fault is over", async () => {
    const below = beneath();
    const folder = await stationFolder([QUICK_SAND]);
    const product = join(folder, "to load.json");
    writeFileSync(product, JSON.stringify({ ...QUICK_SAND, revision: 4 }));
    const add = (): ReturnType<typeof builtRun> =>
      builtRun(["product", "add", product, "--by", "KO", "--data", folder], "", below.env);
    const cases: readonly (readonly [FaultBeneath, RegExp])[] = [
      [
        { call: "create", path: "station[.]lock$", code: "EROFS" },
        /can't be opened for writing: the disk can only be read\. Use another folder/,
      ],
      [
        { call: "write", path: "log/\\d.+[.]tmp$", code: "EIO", bytes: 1 },
        /is not recorded: the disk reports a fault\. Copy the station's folder/,
      ],
      [
        { call: "write", path: "products/.+[.]tmp$", code: "ENOSPC", bytes: "all" },
        /is not kept: the disk is full\. Free some space .+ Load it again/,
      ],
    ];
    for (const [fault, told] of cases) {
      below.fails(fault);
      const { status, stdout, stderr } = add();
      expect(stdout).toBe("");
      expect(status).toBeGreaterThanOrEqual(64);
      expect(stderr).toMatch(told);
      expect(stderr.trimEnd().split("\n")).toHaveLength(1);
      expect(await soundness(folder)).toEqual(SOUND);
    }
    below.fails();
    expect(add()).toMatchObject({ status: 0, stderr: "" });
  });
});

describe.skipIf(process.platform === "win32")("a limit of the account on the size of files", () => {
  test("cuts a real write short: told, the old draft whole, and nothing lost after the limit is lifted", async () => {
    const folder = await stationInWork();
    const [name = ""] = readdirSync(join(folder, "drafts"));
    const blocks = Math.ceil(statSync(join(folder, "drafts", name)).size / 512);
    const limited = `ulimit -f ${blocks}; exec '${process.execPath}' '${PROGRAM}' --data '${folder}'`;
    const op = await resumed(folder, { command: ["sh", "-c", limited] });
    let row = 0;
    const toldBySize = /may not grow so large on this disk or for this account\. Have that limit lifted/;
    for (; row < 5 && !toldBySize.test(messageOf(op)); row += 1) {
      await op.scans(typedG(FULL_G[row] ?? 0));
      await op.sees(new RegExp(`${typedG(FULL_G[row] ?? 0)}[\\s\\S]*(▸|not on disk)`));
    }
    expect(messageOf(op)).toMatch(toldBySize);
    op.kill();
    await op.exit();
    expect(fullOnDisk(folder)).toEqual(weighed(row - 1)); // the one that could not be saved is gone, and was said to be
    const again = await resumed(folder);
    await weighsFull(again, row - 1, row);
    expect(fullOnDisk(folder)).toEqual(weighed(row));
    expect(await soundness(folder)).toEqual(SOUND);
  });
});

/** A file system of its own for the running test; null where this account may not mount one. */
function smallFileSystem(): string | null {
  const folder = mkdtempSync(join(tmpdir(), "sievewright-built-"));
  const { status } = spawnSync("mount", ["-t", "tmpfs", "-o", "size=512k", "tmpfs", folder], { stdio: "ignore" });
  onTestFinished(() => {
    if (status === 0) execFileSync("umount", ["-l", folder]);
    rmdirSync(folder);
  });
  return status === 0 ? folder : null;
}

/** The same folder, at another place. */
async function stationOn(disk: string): Promise<string> {
  const folder = join(disk, "station");
  cpSync(await stationInWork(), folder, { recursive: true });
  return folder;
}

describe.skipIf(process.platform !== "linux" || process.getuid?.() !== 0)("a real small disk (root on Linux)", () => {
  const fill = (disk: string): void => {
    for (let size = 65_536, n = 0; size >= 1; n += 1)
      try {
        writeFileSync(join(disk, `ballast-${n}`), "x".repeat(size));
      } catch {
        size = Math.floor(size / 2);
      }
  };
  const makeRoom = (disk: string): void => {
    for (const name of readdirSync(disk)) if (name.startsWith("ballast")) rmSync(join(disk, name));
  };

  test("that fills up, is freed, and turns read-only and back, costs no weighing and is told each time", async (context) => {
    const disk = smallFileSystem();
    if (disk === null) return context.skip("this account may not mount a file system");
    const remount = (how: "ro" | "rw") => execFileSync("mount", ["-o", `remount,${how}`, disk]);
    const folder = await stationOn(disk);
    const op = await resumed(folder);
    await weighsFull(op, 0, 1);
    fill(disk);
    await weighsBadly(op, 1, FULL);
    expect(fullOnDisk(folder)).toEqual(weighed(1));
    makeRoom(disk);
    await weighsFull(op, 2, 3);
    expect(fullOnDisk(folder)).toEqual(weighed(3));
    remount("ro");
    await weighsBadly(op, 3, READ_ONLY);
    remount("rw");
    await weighsFull(op, 4, 5);
    expect(fullOnDisk(folder)).toEqual(weighed(5));
    expect(await soundness(folder)).toEqual(SOUND);

    await operatorsLeave();
    remount("ro");
    const reader = await resumed(folder, {}, /can only be read|weigh full/);
    await vi.waitFor(() => expect(messageOf(reader)).toMatch(/the disk can only be read\. Use another folder/));
  });
});

describe("a folder that vanishes while it is open, as with a pulled USB disk", () => {
  test("is told with what to do; nothing is made in its place; once it is back all is saved and nothing was lost", async () => {
    const folder = await stationInWork();
    const op = await resumed(folder);
    await weighsFull(op, 0, 1);
    renameSync(folder, `${folder}-pulled`);
    onTestFinished(() => rmSync(`${folder}-pulled`, { recursive: true, force: true }));
    await weighsBadly(
      op,
      1,
      /not on disk: .*nothing is saved .+ the folder is gone\. Connect the disk that it lies on and try again/,
    );
    await weighsBadly(op, 2, /the folder is gone\. Connect the disk/);
    expect(readdirSync(join(folder, "..")).filter((name) => join(folder, "..", name) === folder)).toEqual([]);
    await op.presses("ctrl+c");
    await op.sees(/leaving now loses what is not on disk/);
    renameSync(`${folder}-pulled`, folder);
    await weighsFull(op, 3, 4);
    expect(fullOnDisk(folder)).toEqual(weighed(4));
    expect(await soundness(folder)).toEqual(SOUND);
    await op.presses("ctrl+c");
    expect(await op.exit()).toBe(0);
  });
});
