import { rm } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { MANIFEST_NAME } from "../record/backup.ts";
import type { CopyTarget } from "./backupCopy.ts";
import type { Disk } from "./disk.ts";
import { temporaryName } from "./durableFile.ts";
import { whileBusy } from "./whileBusy.ts";

/** A plain folder as a copy: it can be looked into, proven and even opened as it is. */
export async function folderTarget(folder: string, disk: Disk): Promise<CopyTarget> {
  const temporary = join(dirname(folder), temporaryName(basename(folder)));
  await disk.makeFolder(temporary);
  const put = async (path: string, content: string | Uint8Array): Promise<void> => {
    const file = join(temporary, ...path.split("/"));
    await disk.makeFolder(dirname(file));
    await disk.writeAndSync(file, content);
  };
  return {
    put,
    async finish(manifest) {
      await put(MANIFEST_NAME, manifest);
      await whileBusy(() => disk.rename(temporary, folder), disk);
      await disk.syncFolder(dirname(folder));
    },
    abandon: () => rm(temporary, { recursive: true, force: true }),
  };
}
