import { randomUUID } from "node:crypto";
import { rm, rmdir } from "node:fs/promises";
import { hostname } from "node:os";
import { basename, dirname, join } from "node:path";
import { z } from "zod";
import { code } from "../record/fields.ts";
import type { Kind } from "../record/migrate.ts";
import { codeOf, type Disk } from "./disk.ts";
import { codecOf, durableFile } from "./durableFile.ts";
import { stationPath } from "./layout.ts";
import { STALE_MS } from "./lockHolder.ts";
import { whileBusy } from "./whileBusy.ts";

const folderName = z.string().regex(/^[^/\\]{1,200}$/);
const SwapSchema = z.strictObject({
  schema: z.literal("sievewright.swap/1"),
  station: code,
  /** Names of folders beside the station's: what takes its place, and where the old one goes. */
  staged: folderName,
  aside: folderName.nullable(),
  /** Who is at it; absent in a file of before this was noted. */
  writer: z.strictObject({ pid: z.int().positive(), host: z.string().max(255), token: z.uuid() }).optional(),
});

/** What a restore is about to do, written down before it begins, so that a crash in the middle is put right. */
export type Swap = z.infer<typeof SwapSchema>;

const swapKind: Kind<Swap> = { name: "swap", schema: SwapSchema, lifts: [] };
const swapFile = (folder: string, disk: Disk) => durableFile(`${folder}.restoring.json`, codecOf(swapKind), disk);

/** Swaps that this very process is at: its own number in one that is not among them is of an earlier life. */
const underWayHere = new Set<string>();

/** Puts a folder in the place of another, which is kept beside it; a crash leaves the one or the other, whole. */
export async function swapIn(folder: string, swap: Swap, disk: Disk): Promise<void> {
  const writer = { pid: process.pid, host: hostname(), token: randomUUID() };
  underWayHere.add(writer.token);
  try {
    await swapFile(folder, disk).write({ ...swap, writer });
    await moved(folder, swap, disk);
    await swapFile(folder, disk).drop();
  } finally {
    underWayHere.delete(writer.token);
  }
}

/**
 * Whether somebody is at this swap right now, as of a lock: on the same host its process tells, and anywhere one that was
 * begun more than half a minute ago, or in the future, is left over, for two renames take no time.
 */
async function isUnderWay(folder: string, { writer }: Swap, disk: Disk): Promise<boolean> {
  if (writer === undefined) return false;
  const begunMs = (await disk.modifiedAtMs(`${folder}.restoring.json`)) ?? 0;
  if (Math.abs(Date.now() - begunMs) > STALE_MS) return false;
  if (writer.host !== hostname()) return true;
  return writer.pid === process.pid ? underWayHere.has(writer.token) : isRunning(writer.pid);
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (fault) {
    return codeOf(fault) !== "ESRCH";
  }
}

export const SWAP_UNDER_WAY = "a backup is just being put in the place of this station: wait a moment and try again";

/** Whether a restore of this folder was begun and not ended. */
export const isSwapping = async (folder: string, disk: Disk): Promise<boolean> =>
  (await disk.modifiedAtMs(`${folder}.restoring.json`)) !== null;

async function moved(folder: string, { staged, aside }: Swap, disk: Disk): Promise<void> {
  const beside = dirname(folder);
  if (aside !== null) await whileBusy(() => disk.rename(folder, join(beside, aside)), disk);
  else await rmdir(folder).catch(() => undefined); // an empty one, or none
  try {
    await whileBusy(() => disk.rename(join(beside, staged), folder), disk);
  } catch (fault) {
    if (aside !== null) await disk.rename(join(beside, aside), folder);
    await swapFile(folder, disk).drop();
    throw fault;
  }
  await disk.syncFolder(beside);
}

/**
 * Ends what a crash left of a restore. The old station still in its place: it stays, and the staged copy goes. Moved aside
 * already: the staged copy, which was proven before, takes its place. True where a station came to its place that way.
 * A restore that is under way elsewhere is left alone.
 */
export async function finishSwap(folder: string, disk: Disk): Promise<boolean | "under way"> {
  if (!(await isSwapping(folder, disk))) return false;
  const swap = await swapFile(folder, disk).read();
  if (swap === null) return false;
  if (await isUnderWay(folder, swap, disk)) return "under way";
  const staged = join(dirname(folder), basename(swap.staged));
  const there = (await disk.modifiedAtMs(stationPath(folder))) !== null;
  const isStaged = (await disk.modifiedAtMs(stationPath(staged))) !== null;
  if (!there && isStaged) await moved(folder, { ...swap, aside: null }, disk);
  else if (isStaged) await rm(staged, { recursive: true, force: true });
  await swapFile(folder, disk).drop();
  return !there && isStaged;
}
