import { readdir, rm, stat } from "node:fs/promises";
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from "node:path";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { archiveTarget } from "./backupArchive.ts";
import { type About, type Copied, copyStation } from "./backupCopy.ts";
import { folderTarget } from "./backupFolder.ts";
import type { Disk } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";
import { isTemporary } from "./durableFile.ts";
import { realDisk } from "./realDisk.ts";
import { verifyLog } from "./verify.ts";

const ARCHIVE = /\.(?:tgz|tar\.gz)$/i;
/** A copy that is torn by what is recorded meanwhile is made again so often; then the log itself is at fault. */
const TRIES = 4;
const LEFT_BEHIND_MS = 3_600_000;

/**
 * Copies a station into one archive file (`.tgz`) or a plain folder, whether or not it is open elsewhere. The copy has its
 * name only when it is whole and flushed; one that is there is never replaced. A log that is broken is copied as it is.
 */
export async function makeBackup(
  folder: string,
  to: string,
  about: About,
  disk: Disk = realDisk,
): Promise<Outcome<Copied>> {
  try {
    const unfit = await targetRefusal(folder, to);
    if (unfit !== null) return refused(unfit);
    await clearLeftBehind(to);
    return accepted(await copyUntilWhole(folder, to, about, disk));
  } catch (fault) {
    return refused(diskTrouble(fault, `the backup ${to} is not made`));
  }
}

async function copyUntilWhole(folder: string, to: string, about: About, disk: Disk): Promise<Copied> {
  for (let attempt = 1; attempt < TRIES; attempt += 1) {
    const copied = await copyOnce(folder, to, about, disk, async () => !(await verifyLog(folder, disk)).ok);
    if (copied !== null) return copied;
  }
  const last = await copyOnce(folder, to, about, disk, async () => true);
  if (last === null) throw new Error("a copy that is taken as it is was not taken");
  return last;
}

async function copyOnce(
  folder: string,
  to: string,
  about: About,
  disk: Disk,
  takeBroken: () => Promise<boolean>,
): Promise<Copied | null> {
  const target = ARCHIVE.test(to) ? await archiveTarget(to, about.at, disk) : await folderTarget(to, disk);
  try {
    const copied = await copyStation(folder, disk, target, about, takeBroken);
    if (copied === null) await target.abandon();
    return copied;
  } catch (fault) {
    await target.abandon().catch(() => undefined);
    throw fault;
  }
}

/** Why no copy can be made there; null when it can. */
async function targetRefusal(folder: string, to: string): Promise<string | null> {
  const inside = relative(resolve(folder), resolve(to));
  if (inside !== ".." && !inside.startsWith(`..${sep}`) && !isAbsolute(inside))
    return `${to} lies in the station's own folder: name a place outside it, best on another disk`;
  if (await exists(to)) return `${to} is there already and is not replaced: give the new backup another name`;
  return (await exists(dirname(resolve(to))))
    ? null
    : `there is no folder ${dirname(resolve(to))}: make it, or connect the disk`;
}

async function exists(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    (fault: NodeJS.ErrnoException) => {
      if (fault.code === "ENOENT" || fault.code === "ENOTDIR") return false;
      throw fault;
    },
  );
}

/** What a killed backup of the same name left half written. */
async function clearLeftBehind(to: string): Promise<void> {
  const folder = dirname(resolve(to));
  for (const name of await readdir(folder)) {
    if (!name.startsWith(`${basename(to)}.`) || !isTemporary(name)) continue;
    const path = join(folder, name);
    const { mtimeMs } = await stat(path);
    if (Date.now() - mtimeMs > LEFT_BEHIND_MS) await rm(path, { recursive: true, force: true });
  }
}
