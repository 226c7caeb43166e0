import { join } from "node:path";
import { backupKind } from "../record/kinds.ts";
import { generationsToDrop, keptName } from "./backupGenerations.ts";
import { type CopyPlace, copiesFolder, generationsOf } from "./copyWitness.ts";
import type { Disk } from "./disk.ts";
import { codecOf, durableFile, isTemporary } from "./durableFile.ts";

/**
 * Drops the copies beyond those that are kept, then the contents that no copy names any more. As long as one manifest can't
 * be read no content is dropped: it may be the one that names it.
 */
export async function prune(place: CopyPlace, logEnd: number, made: string, disk: Disk): Promise<void> {
  const folder = copiesFolder(place.root);
  const dropped = generationsToDrop(await generationsOf(place, disk), place.keep, logEnd, made);
  for (const { name } of dropped) await disk.remove(join(folder, name));
  if (dropped.length === 0) return;
  await disk.syncFolder(folder);
  const named = new Set<string>();
  for (const { name } of await generationsOf(place, disk)) {
    const manifest = await durableFile(join(folder, name), codecOf(backupKind), disk)
      .read()
      .catch(() => null);
    if (manifest === null) return;
    for (const file of manifest.files) named.add(keptName(file.path, file.sha256));
  }
  await dropUnnamed(join(place.root, "files"), "", named, disk);
}

async function dropUnnamed(root: string, inside: string, named: ReadonlySet<string>, disk: Disk): Promise<void> {
  for (const name of await disk.list(join(root, inside))) {
    const path = inside === "" ? name : `${inside}/${name}`;
    if (!name.includes(".")) await dropUnnamed(root, path, named, disk);
    else if (isTemporary(name) || !named.has(path)) await disk.remove(join(root, path));
  }
}
