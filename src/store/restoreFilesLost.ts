import { join } from "node:path";
import type { BackupManifest } from "../record/backup.ts";
import { draftKind, operatorsKind } from "../record/kinds.ts";
import type { Kind } from "../record/migrate.ts";
import { sha256Of } from "./backupCopy.ts";
import { stationFiles } from "./backupFiles.ts";
import { type Disk, UnfitFile } from "./disk.ts";
import { codecOf, durableFile } from "./durableFile.ts";
import { operatorsPath } from "./layout.ts";

const LOOKED_AT = /^(?:drafts|library)\/.*\.json$/;
const NAMED_AT_MOST = 8;

/**
 * What lies beside the log of a station and would vanish from it if a copy took its place: tests in work that hold a mass,
 * product drafts, sieves and revisions that the copy lacks or holds otherwise, people whom it doesn't know. In words, each.
 *
 * @param beside where the copy lies unpacked
 */
export async function filesLost(
  folder: string,
  beside: string,
  { files }: BackupManifest,
  disk: Disk,
): Promise<readonly string[]> {
  const copied = new Map(files.map(({ path, sha256 }) => [path, sha256]));
  const lost: string[] = [];
  for await (const path of stationFiles(folder, disk)) {
    if (!LOOKED_AT.test(path)) continue;
    const bytes = await bytesAt(join(folder, path), disk);
    if (bytes === null || copied.get(path) === sha256Of(bytes)) continue;
    if (path.startsWith("drafts/") && !(await holdsAMass(join(folder, path), disk))) continue;
    lost.push(copied.has(path) ? `${path} (otherwise in the backup)` : path);
  }
  const there = await peopleIn(folder, disk);
  const inCopy = new Set(await peopleIn(beside, disk));
  return [...lost, ...there.filter((who) => !inCopy.has(who)).map((who) => `the person ${who}`)];
}

/** "drafts/T-1.json, drafts/T-2.json and 3 more". */
export function filesInWords(lost: readonly string[]): string {
  const more = lost.length - NAMED_AT_MOST;
  return `${lost.slice(0, NAMED_AT_MOST).join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
}

async function bytesAt(path: string, disk: Disk): Promise<Uint8Array | null> {
  try {
    return await disk.read(path);
  } catch (fault) {
    if (fault instanceof UnfitFile) return null;
    throw fault;
  }
}

const contentOf = <T>(path: string, kind: Kind<T>, disk: Disk): Promise<T | null> =>
  durableFile(path, codecOf(kind), disk)
    .read()
    .catch(() => null);

/** One that can't be read may hold some. */
async function holdsAMass(path: string, disk: Disk): Promise<boolean> {
  const draft = await contentOf(path, draftKind, disk);
  if (draft === null) return true;
  return draft.chargeG !== null || draft.weighings.some(({ emptyG, fullG }) => emptyG !== null || fullG !== null);
}

async function peopleIn(folder: string, disk: Disk): Promise<readonly string[]> {
  const list = await contentOf(operatorsPath(folder), operatorsKind, disk);
  return list?.people.map(({ initials }) => initials) ?? [];
}
