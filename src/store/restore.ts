import { randomUUID } from "node:crypto";
import { readdir, rm, stat } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import type { Outcome } from "../entry/outcome.ts";
import type { BackupManifest } from "../record/backup.ts";
import { FIRST_PREVIOUS } from "../record/seal.ts";
import { entriesInWords } from "./chainWords.ts";
import type { Disk } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";
import { lockPath, stationPath } from "./layout.ts";
import { takeLock } from "./lock.ts";
import { realDisk } from "./realDisk.ts";
import { filesInWords, filesLost } from "./restoreFilesLost.ts";
import { type Loss, lossInWords, lossOf, type Seals } from "./restorePlan.ts";
import { UnfitBackup } from "./restoreSource.ts";
import { type Staged, sealsBeside, staged } from "./restoreStaging.ts";
import { finishSwap, isSwapping, SWAP_UNDER_WAY, swapIn } from "./restoreSwap.ts";

export interface RestoreRequest {
  /** An archive, a folder, or the manifest of an automatic copy. */
  readonly backup: string;
  readonly folder: string;
  readonly now: string;
  /** Take the place of a station that is there. */
  readonly replace: boolean;
  /** Even where entries of it are not in the backup. */
  readonly despiteNewer: boolean;
  /** Even where the log was broken already when it was copied. */
  readonly despiteBroken: boolean;
  /** Has the station that is there agree, before anything of it is touched, and say in its own log what becomes of it. */
  readonly giveWay: (folder: string, to: GivenWay) => Promise<Outcome<void>>;
  /** Says in the restored log that it was restored, and draws its index. */
  readonly tell: (folder: string, told: Told) => Promise<Outcome<void>>;
}

/** What the log of a restored station says of it. */
export interface Told {
  readonly from: string;
  readonly sha256: string;
  readonly head: BackupManifest["head"];
  readonly replaced: { readonly number: number; readonly seal: string; readonly keptIn: string } | null;
}

/** What the log of a station that gives way says of it. */
export type GivenWay = Pick<Told, "from" | "head"> & { readonly keptIn: string };

export interface Restored {
  readonly manifest: BackupManifest;
  /** Where the station went that was there; null when there was none. */
  readonly keptIn: string | null;
  /** The entries and files that it held and the backup doesn't, in words; null when there are none. */
  readonly vanished: string | null;
}

/** Why nothing was restored: the backup is no good, the place is taken, or the disk is at fault. */
export type NotRestored = {
  readonly ok: false;
  readonly why: "unfit" | "in the way" | "disk";
  readonly reason: string;
};

const no = (why: NotRestored["why"], reason: string): NotRestored => ({ ok: false, why, reason });

/**
 * Puts a station back from a copy. First the whole copy is unpacked beside the station's folder and proven: its manifest,
 * every hash, every path, the chain of its log. Only then is the station's folder touched, by two renames that a crash
 * can't tear: what was there stays, under another name.
 */
export async function restoreBackup(
  request: RestoreRequest,
  disk: Disk = realDisk,
): Promise<{ readonly ok: true; readonly value: Restored } | NotRestored> {
  const folder = resolve(request.folder);
  const beside = join(dirname(folder), `${basename(folder)}.staged-${randomUUID()}`);
  try {
    if ((await finishSwap(folder, disk)) === "under way") return no("in the way", SWAP_UNDER_WAY);
    await clearStaged(folder);
    const taken = await placeTaken(folder, request, disk);
    if (taken !== null) return no("in the way", taken);
    await disk.makeFolder(beside);
    const copy = await staged(resolve(request.backup), beside, disk);
    if (copy.broken !== null && !request.despiteBroken)
      return no(
        "unfit",
        `${request.backup}: its log was broken when it was copied: ${copy.broken}. Take an older backup, or add --despite-broken`,
      );
    return await inPlace(folder, beside, copy, request, disk);
  } catch (fault) {
    if (fault instanceof UnfitBackup) return no("unfit", `${request.backup} can't be restored: ${fault.message}`);
    return no("disk", diskTrouble(fault, `${request.backup} is not restored`));
  } finally {
    if (!(await isSwapping(folder, disk))) await rm(beside, { recursive: true, force: true }).catch(() => undefined);
  }
}

const STAGED_LEFT_MS = 3_600_000;

/** What a killed restore unpacked and nobody came back to. */
async function clearStaged(folder: string): Promise<void> {
  const beside = (await isThere(dirname(folder))) ? await readdir(dirname(folder)) : [];
  for (const name of beside) {
    if (!name.startsWith(`${basename(folder)}.staged-`)) continue;
    const path = join(dirname(folder), name);
    if (Date.now() - (await stat(path)).mtimeMs > STAGED_LEFT_MS) await rm(path, { recursive: true, force: true });
  }
}

const isThere = (path: string): Promise<boolean> =>
  stat(path).then(
    () => true,
    () => false,
  );

/** Why nothing can be restored there, whatever the backup holds; null when it may be. */
async function placeTaken(folder: string, { replace }: RestoreRequest, disk: Disk): Promise<string | null> {
  const names = (await isThere(folder)) ? await readdir(folder) : [];
  if (names.length === 0) return null;
  const isStation = (await disk.modifiedAtMs(stationPath(folder))) !== null || names.includes("log");
  if (!isStation) return `${folder} is neither empty nor a station: name an empty or a new folder`;
  return replace
    ? null
    : `there is a station in ${folder}: name an empty folder, or add --replace to put the backup in its place (it is kept under another name)`;
}

/**
 * The station that is there is looked at under its lock, then asked to give way, which it does as whoever opens it and so
 * without this lock, and then nobody else works in it any more.
 */
async function inPlace(
  folder: string,
  beside: string,
  copy: Staged,
  request: RestoreRequest,
  disk: Disk,
): Promise<{ readonly ok: true; readonly value: Restored } | NotRestored> {
  const occupied = (await isThere(folder)) && (await readdir(folder)).length > 0;
  if (!occupied) return exchanged(folder, beside, copy, request, disk, null);
  const seen = await underLock(folder, request, disk, async () => {
    const { seals, ofTheCopy } = await sealsBeside(folder, copy, disk);
    const loss = lossOf(seals, copy.seals, ofTheCopy);
    const files = await filesLost(folder, beside, copy.manifest, disk);
    const losses = [
      ...(loss.is === "nothing" ? [] : [lossInWords(loss)]),
      ...(files.length === 0 ? [] : [`not in the backup, and gone with it: ${filesInWords(files)}`]),
    ];
    if (losses.length > 0 && !request.despiteNewer)
      return no("in the way", `${losses.join("; ")}. Nothing was changed; add --despite-newer to restore all the same`);
    const vanished = [...lossNamed(loss), ...(files.length === 0 ? [] : [filesInWords(files)])].join("; ");
    return { ok: true, value: { last: seals.end?.number ?? 0, vanished: vanished === "" ? null : vanished } } as const;
  });
  if (!seen.ok) return seen;
  const keptIn = freeName(folder, request.now, await readdir(dirname(folder)));
  const agreed = await request.giveWay(folder, { from: basename(request.backup), head: copy.manifest.head, keptIn });
  if (!agreed.ok) return no("in the way", agreed.reason);
  return underLock(folder, request, disk, async () => {
    const { seals, recorded } = await sealsBeside(folder, copy, disk, seen.value.last);
    if (recorded) return no("in the way", `somebody recorded in ${folder} meanwhile. Nothing was restored; try again`);
    return exchanged(folder, beside, copy, request, disk, { seals, keptIn, vanished: seen.value.vanished });
  });
}

const lossNamed = (loss: Loss): readonly string[] =>
  loss.is === "nothing" ? [] : [entriesInWords(loss.from, loss.to)];

async function underLock<T>(
  folder: string,
  { now }: RestoreRequest,
  disk: Disk,
  step: () => Promise<T | NotRestored>,
): Promise<T | NotRestored> {
  const lock = await takeLock(folder, disk, process.pid, now);
  if (!lock.ok) return no("in the way", `${lock.reason}. Close it there and try again`);
  try {
    return await step();
  } finally {
    await lock.value.release();
  }
}

/** The station that gives way to a copy. */
interface GivingWay {
  readonly seals: Seals;
  readonly keptIn: string;
  readonly vanished: string | null;
}

async function exchanged(
  folder: string,
  beside: string,
  copy: Staged,
  request: RestoreRequest,
  disk: Disk,
  there: GivingWay | null,
): Promise<{ readonly ok: true; readonly value: Restored } | NotRestored> {
  const told = await request.tell(beside, toldOf(request, copy, there));
  if (!told.ok) return no("disk", told.reason);
  const keptIn = there?.keptIn ?? null;
  await swapIn(folder, swapOf(copy, beside, keptIn), disk);
  if (keptIn !== null) await disk.remove(lockPath(join(dirname(folder), keptIn)));
  return { ok: true, value: { manifest: copy.manifest, keptIn, vanished: there?.vanished ?? null } };
}

const swapOf = ({ manifest }: Staged, beside: string, aside: string | null) =>
  ({ schema: "sievewright.swap/1", station: manifest.station, staged: basename(beside), aside }) as const;

const toldOf = ({ backup }: RestoreRequest, copy: Staged, there: GivingWay | null): Told => ({
  from: basename(backup),
  sha256: copy.sha256,
  head: copy.manifest.head,
  replaced: there === null ? null : { number: 0, seal: FIRST_PREVIOUS, ...there.seals.end, keptIn: there.keptIn },
});

/** "station.before-2026-11-24-0312", with a number behind where that is taken. */
function freeName(folder: string, now: string, taken: readonly string[]): string {
  const wanted = `${basename(folder)}.before-${now.slice(0, 16).replace("T", "-").replace(":", "")}`;
  let name = wanted;
  for (let n = 2; taken.includes(name); n += 1) name = `${wanted}-${n}`;
  return name;
}
