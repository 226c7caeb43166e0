import { stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { BackupManifest } from "../record/backup.ts";
import { FIRST_PREVIOUS } from "../record/seal.ts";
import type { Link } from "./chainParts.ts";
import type { Disk } from "./disk.ts";
import { stationPath } from "./layout.ts";
import { type Unpack, unpackArchive } from "./restoreArchive.ts";
import { unpackFolder, unpackGeneration } from "./restoreFolder.ts";
import { type Seals, sealNumber } from "./restorePlan.ts";
import { ProvenFiles, UnfitBackup } from "./restoreSource.ts";
import { readStation } from "./stationFile.ts";
import { verifyLog } from "./verify.ts";

/** A copy, unpacked into a folder of its own and proven. */
export interface Staged {
  readonly manifest: BackupManifest;
  /** SHA-256 of its manifest. */
  readonly sha256: string;
  readonly seals: Seals;
  /** How its log does not hang together; null when it does. */
  readonly broken: string | null;
}

/** Unpacks a copy of any form and proves it; throws `UnfitBackup` for one that is not what its manifest says. */
export async function staged(backup: string, folder: string, disk: Disk): Promise<Staged> {
  const files = new ProvenFiles();
  const unpack: Unpack = async (path, bytes) => {
    const file = join(folder, ...path.split("/"));
    await disk.makeFolder(dirname(file));
    await disk.writeAndSync(file, bytes);
  };
  await unpacked(backup, disk, files, unpack);
  const { manifest, sha256 } = files.proven();
  await mustBeStation(folder, manifest, disk);
  const { seals, broken } = await readSeals(folder, disk);
  mustEnd(seals, manifest);
  return { manifest, sha256, seals, broken };
}

async function unpacked(backup: string, disk: Disk, files: ProvenFiles, unpack: Unpack): Promise<void> {
  const found = await stat(backup).catch(() => null);
  if (found === null) throw new UnfitBackup("there is no such file or folder");
  if (found.isDirectory()) return unpackFolder(backup, disk, files, unpack);
  return backup.endsWith(".json")
    ? unpackGeneration(backup, disk, files, unpack)
    : unpackArchive(backup, files, unpack);
}

async function mustBeStation(folder: string, manifest: BackupManifest, disk: Disk): Promise<void> {
  if ((await disk.modifiedAtMs(stationPath(folder))) === null) throw new UnfitBackup("station.json is missing in it");
  const station = await readStation(folder, disk);
  if (!station.ok) throw new UnfitBackup(station.reason.replace(`${stationPath(folder)} `, "its station.json "));
  if (station.value?.station !== manifest.station)
    throw new UnfitBackup(`its manifest is of station ${manifest.station}, its station.json of another`);
}

function mustEnd(seals: Seals, { head }: BackupManifest): void {
  const end = seals.end ?? { number: 0, seal: FIRST_PREVIOUS };
  if (end.number !== head.number || end.seal !== head.seal)
    throw new UnfitBackup(`its log ends with entry ${end.number}, its manifest says entry ${head.number}`);
}

/** What the store tells its log while a station is opened and gives way. */
const OF_THE_OPENING: readonly unknown[] = ["sign-on", "finding", "clock set", "station declared"];

/**
 * The seals of whatever log lies in a folder, sound or not, its entries that tell of the copy with this manifest, and
 * whether anything was recorded after the entry `since` but what opening a station tells.
 */
export async function sealsBeside(
  folder: string,
  { sha256 }: Staged,
  disk: Disk,
  since = Number.POSITIVE_INFINITY,
): Promise<{ readonly seals: Seals; readonly ofTheCopy: ReadonlySet<number>; readonly recorded: boolean }> {
  const ofTheCopy = new Set<number>();
  let recorded = false;
  const { seals } = await readSeals(folder, disk, (link) => {
    if (link.kind === "backup" && link.sha256 === sha256) ofTheCopy.add(link.number);
    if (link.number > since && !OF_THE_OPENING.includes(link.kind)) recorded = true;
  });
  return { seals, ofTheCopy, recorded };
}

type Passing = (link: Link & { readonly kind?: unknown; readonly sha256?: unknown }) => void;

async function readSeals(
  folder: string,
  disk: Disk,
  passing: Passing = () => undefined,
): Promise<{ seals: Seals; broken: string | null }> {
  const by = new Map<number, number>();
  const { head, firstBroken } = await verifyLog(folder, disk, {
    passing: (link, seal) => {
      by.set(link.number, sealNumber(seal));
      passing(link);
    },
  });
  const broken = firstBroken === undefined ? null : `${firstBroken.file} ${firstBroken.how}`;
  return { seals: { end: head, by }, broken };
}
