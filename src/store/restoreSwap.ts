import { rm, rmdir } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { z } from "zod";
import { code } from "../record/fields.ts";
import type { Kind } from "../record/migrate.ts";
import type { Disk } from "./disk.ts";
import { codecOf, durableFile } from "./durableFile.ts";
import { stationPath } from "./layout.ts";
import { whileBusy } from "./whileBusy.ts";

const folderName = z.string().regex(/^[^/\\]{1,200}$/);
const SwapSchema = z.strictObject({
  schema: z.literal("sievewright.swap/1"),
  station: code,
  /** Names of folders beside the station's: what takes its place, and where the old one goes. */
  staged: folderName,
  aside: folderName.nullable(),
});

/** What a restore is about to do, written down before it begins, so that a crash in the middle is put right. */
export type Swap = z.infer<typeof SwapSchema>;

const swapKind: Kind<Swap> = { name: "swap", schema: SwapSchema, lifts: [] };
const swapFile = (folder: string, disk: Disk) => durableFile(`${folder}.restoring.json`, codecOf(swapKind), disk);

/** Puts a folder in the place of another, which is kept beside it; a crash leaves the one or the other, whole. */
export async function swapIn(folder: string, swap: Swap, disk: Disk): Promise<void> {
  await swapFile(folder, disk).write(swap);
  await moved(folder, swap, disk);
  await swapFile(folder, disk).drop();
}

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
 */
export async function finishSwap(folder: string, disk: Disk): Promise<boolean> {
  if (!(await isSwapping(folder, disk))) return false;
  const swap = await swapFile(folder, disk).read();
  if (swap === null) return false;
  const staged = join(dirname(folder), basename(swap.staged));
  const there = (await disk.modifiedAtMs(stationPath(folder))) !== null;
  const isStaged = (await disk.modifiedAtMs(stationPath(staged))) !== null;
  if (!there && isStaged) await moved(folder, { ...swap, aside: null }, disk);
  else if (isStaged) await rm(staged, { recursive: true, force: true });
  await swapFile(folder, disk).drop();
  return !there && isStaged;
}
