import { dirname, join } from "node:path";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { BackupManifest, CopiedFile } from "../record/backup.ts";
import { backupKind, headKind } from "../record/kinds.ts";
import { FIRST_PREVIOUS } from "../record/seal.ts";
import { type About, manifestText, sha256Of } from "./backupCopy.ts";
import { stationFiles } from "./backupFiles.ts";
import { generationName, keptName } from "./backupGenerations.ts";
import { prune } from "./backupPruning.ts";
import { type CopyPlace, copiesFolder, generationsOf } from "./copyWitness.ts";
import { type Disk, UnfitFile } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";
import { codecOf, durableFile, temporaryName } from "./durableFile.ts";
import { headPath } from "./layout.ts";
import { realDisk } from "./realDisk.ts";
import { whileBusy } from "./whileBusy.ts";

export interface RollingCopy {
  readonly folder: string;
  readonly place: CopyPlace;
  readonly about: About;
  readonly nowMs: number;
  /** Asked before each file: false ends the copy where it stands. */
  readonly goOn: () => boolean;
}

/** A file that was written so lately may be written again within the same tick of the disk's clock. */
const SETTLED_MS = 5000;
const CHECKED_EACH_TIME = 16;

/**
 * One more automatic copy of a station: only what has changed since the last one is read, and only contents that no copy has
 * yet are written. Without a change there is no new copy. The copy counts once its manifest is there, which comes last.
 */
export async function rollingCopy(
  asked: RollingCopy,
  disk: Disk = realDisk,
): Promise<Outcome<"copied" | "unchanged" | "stopped">> {
  const { place } = asked;
  try {
    if (place.keep === 0) return accepted("unchanged");
    if (place.mustExist !== null && (await disk.modifiedAtMs(place.mustExist)) === null)
      return refused(
        `no copy was made: ${place.mustExist} is not there. Connect that disk, or correct backups in station.json`,
      );
    await disk.makeFolder(copiesFolder(place.root));
    const before = await lastManifest(asked, disk);
    const files = await copiedFiles(asked, before, disk);
    if (files === null) return accepted("stopped");
    if (before !== null && sameFiles(before.files, files)) return accepted("unchanged");
    const head = await headOf(asked, files, disk);
    const manifest: BackupManifest = { schema: "sievewright.backup/1", ...asked.about, head, files: [...files] };
    const name = generationName(asked.nowMs, head);
    await put(join(copiesFolder(place.root), name), manifestText(manifest), disk);
    await prune(place, head.number, name, disk);
    return accepted("copied");
  } catch (fault) {
    return refused(diskTrouble(fault, `no copy was made in ${place.root}`));
  }
}

/** The latest copy of this log; those beyond its end are of one that was replaced or cut. */
async function lastManifest({ folder, place }: RollingCopy, disk: Disk): Promise<BackupManifest | null> {
  const head = await durableFile(headPath(folder), codecOf(headKind), disk)
    .read()
    .catch(() => null);
  const all = await generationsOf(place, disk);
  const last = all.filter(({ number }) => number <= (head?.number ?? 0)).at(-1) ?? all.at(-1);
  if (last === undefined) return null;
  const path = join(copiesFolder(place.root), last.name);
  return durableFile(path, codecOf(backupKind), disk)
    .read()
    .catch(() => null);
}

async function copiedFiles(
  { folder, place, nowMs, goOn }: RollingCopy,
  before: BackupManifest | null,
  disk: Disk,
): Promise<readonly CopiedFile[] | null> {
  const known = new Map(before?.files.map((file) => [file.path, file]));
  const files: CopiedFile[] = [];
  const isDue = checkedNow(nowMs, known.size);
  for await (const path of stationFiles(folder, disk)) {
    if (!goOn()) return null;
    const modifiedAtMs = await disk.modifiedAtMs(join(folder, path));
    const same = known.get(path);
    if (same !== undefined && same.modifiedAtMs === modifiedAtMs && (await isKept(place.root, same, isDue(), disk))) {
      files.push(same);
      continue;
    }
    const bytes = await plainBytes(join(folder, path), disk);
    if (bytes === null) continue;
    const sha256 = sha256Of(bytes);
    await keep(place.root, { path, bytes: bytes.length, sha256 }, bytes, disk);
    const settled = modifiedAtMs !== null && Math.abs(nowMs - modifiedAtMs) > SETTLED_MS ? { modifiedAtMs } : {};
    files.push({ path, bytes: bytes.length, sha256, ...settled });
  }
  return files;
}

/** What is gone by now, or no plain file, is not copied; the store itself tells of it. */
async function plainBytes(path: string, disk: Disk): Promise<Uint8Array | null> {
  try {
    return await disk.read(path);
  } catch (fault) {
    if (fault instanceof UnfitFile) return null;
    throw fault;
  }
}

/** At each copy a few of the unchanged files are looked into where they are kept; which ones, the moment decides. */
function checkedNow(nowMs: number, count: number): () => boolean {
  const turns = Math.max(1, Math.ceil(count / CHECKED_EACH_TIME));
  let at = Math.floor(nowMs / 1000) % turns;
  return () => {
    at = (at + 1) % turns;
    return at === 0;
  };
}

/** Whether a file lies among the kept ones as it was put there; without a look inside, whether it is there at all. */
async function isKept(root: string, file: CopiedFile, inside: boolean, disk: Disk): Promise<boolean> {
  const path = join(root, "files", ...keptName(file.path, file.sha256).split("/"));
  if (!inside) return (await disk.modifiedAtMs(path)) !== null;
  const bytes = await plainBytes(path, disk);
  return bytes !== null && sha256Of(bytes) === file.sha256;
}

/** Puts a file among the kept ones, also in the place of one that has rotted there: every copy that names it is whole again. */
async function keep(root: string, file: CopiedFile, bytes: Uint8Array, disk: Disk): Promise<void> {
  if (await isKept(root, file, true, disk)) return;
  await put(join(root, "files", ...keptName(file.path, file.sha256).split("/")), bytes, disk);
}

async function put(path: string, content: string | Uint8Array, disk: Disk): Promise<void> {
  await disk.makeFolder(dirname(path));
  const temporary = temporaryName(path);
  try {
    await disk.writeAndSync(temporary, content);
    await whileBusy(() => disk.rename(temporary, path), disk);
  } catch (fault) {
    await disk.remove(temporary).catch(() => undefined);
    throw fault;
  }
  await disk.syncFolder(dirname(path));
}

const sameFiles = (before: readonly CopiedFile[], now: readonly CopiedFile[]): boolean =>
  before.length === now.length &&
  before.every(({ path, sha256 }, i) => now[i]?.path === path && now[i]?.sha256 === sha256);

/** The head as it was copied, not as it may be by now. */
async function headOf(
  { place }: RollingCopy,
  files: readonly CopiedFile[],
  disk: Disk,
): Promise<BackupManifest["head"]> {
  const head = files.find(({ path }) => path === "log/head.json");
  const kept = head === undefined ? null : join(place.root, "files", ...keptName(head.path, head.sha256).split("/"));
  const read = kept === null ? null : await durableFile(kept, codecOf(headKind), disk).read();
  return read === null ? { number: 0, seal: FIRST_PREVIOUS } : { number: read.number, seal: read.seal };
}
