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
    const before = await lastManifest(place, disk);
    const files = await copiedFiles(asked, before, disk);
    if (files === null) return accepted("stopped");
    if (before !== null && sameFiles(before.files, files)) return accepted("unchanged");
    const head = await headOf(asked, files, disk);
    const manifest: BackupManifest = { schema: "sievewright.backup/1", ...asked.about, head, files: [...files] };
    await put(join(copiesFolder(place.root), generationName(asked.nowMs, head)), manifestText(manifest), disk);
    await prune(place, head.number, disk);
    return accepted("copied");
  } catch (fault) {
    return refused(diskTrouble(fault, `no copy was made in ${place.root}`));
  }
}

async function lastManifest(place: CopyPlace, disk: Disk): Promise<BackupManifest | null> {
  const last = (await generationsOf(place, disk)).at(-1);
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
  for await (const path of stationFiles(folder, disk)) {
    if (!goOn()) return null;
    const modifiedAtMs = await disk.modifiedAtMs(join(folder, path));
    const same = known.get(path);
    if (same !== undefined && same.modifiedAtMs === modifiedAtMs) {
      files.push(same);
      continue;
    }
    const bytes = await plainBytes(join(folder, path), disk);
    if (bytes === null) continue;
    const sha256 = sha256Of(bytes);
    await keep(place.root, keptName(path, sha256), bytes, disk);
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

async function keep(root: string, name: string, bytes: Uint8Array, disk: Disk): Promise<void> {
  const path = join(root, "files", ...name.split("/"));
  if ((await disk.modifiedAtMs(path)) === null) await put(path, bytes, disk);
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
