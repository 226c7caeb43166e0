import { lstat, readdir } from "node:fs/promises";
import { dirname, join } from "node:path";
import { MANIFEST_NAME } from "../record/backup.ts";
import { keptName } from "./backupGenerations.ts";
import type { Disk } from "./disk.ts";
import type { Unpack } from "./restoreArchive.ts";
import { manifestFrom, type ProvenFiles, UnfitBackup } from "./restoreSource.ts";

/** Reads a copy that is a plain folder: all that lies in it, so that a stranger's file is found too. */
export async function unpackFolder(folder: string, disk: Disk, files: ProvenFiles, unpack: Unpack): Promise<void> {
  for (const path of await filesBelow(folder)) {
    files.admit(path, (await lstat(join(folder, path))).size);
    const bytes = await disk.read(join(folder, path));
    if (bytes === null) throw new UnfitBackup(`${path} went away while it was read`);
    if (files.take(path, bytes)) await unpack(path, bytes);
  }
}

async function filesBelow(folder: string, inside = ""): Promise<readonly string[]> {
  const found: string[] = [];
  for (const one of await readdir(join(folder, inside), { withFileTypes: true })) {
    const path = inside === "" ? one.name : `${inside}/${one.name}`;
    if (one.isDirectory()) found.push(...(await filesBelow(folder, path)));
    else if (one.isFile()) found.push(path);
    else throw new UnfitBackup(`it holds ${path}, which is no plain file: only plain files are restored`);
  }
  return found;
}

/** Reads an automatic copy: its manifest, and the files that it shares with other copies. */
export async function unpackGeneration(
  manifestPath: string,
  disk: Disk,
  files: ProvenFiles,
  unpack: Unpack,
): Promise<void> {
  const text = await disk.read(manifestPath);
  if (text === null) throw new UnfitBackup("there is no such file");
  files.admit(MANIFEST_NAME, text.length);
  files.take(MANIFEST_NAME, text);
  const kept = join(dirname(dirname(manifestPath)), "files");
  for (const { path, sha256, bytes: length } of manifestFrom(text).files) {
    files.admit(path, length);
    const bytes = await disk.read(join(kept, ...keptName(path, sha256).split("/")));
    if (bytes === null) throw new UnfitBackup(`${path} is missing in it`);
    if (files.take(path, bytes)) await unpack(path, bytes);
  }
}
