import { join } from "node:path";
import { isCopiedFolder, isCopiedPath } from "../record/backup.ts";
import { type Disk, UnfitFile } from "./disk.ts";

/**
 * The files of a station that belong into a copy, in the order in which they must be read while somebody goes on recording:
 * drafts before the log (a test that is recorded meanwhile is then in both, never in neither), the head before the days (it
 * then never names an entry that the copy lacks), and the days newest first (whatever entry was read, all before it are there).
 * Each is to be read before the next is asked for; one may be gone by then, or never have been.
 */
export async function* stationFiles(folder: string, disk: Disk): AsyncGenerator<string> {
  for (const path of await filesIn(folder, "", disk)) if (!path.startsWith("log/")) yield path;
  yield HEAD;
  const log = await filesIn(folder, "log", disk); // listed only now, after the head was read
  yield* log.filter((path) => path !== HEAD).reverse();
}
const HEAD = "log/head.json";

async function filesIn(folder: string, inside: string, disk: Disk): Promise<string[]> {
  const found: string[] = [];
  for (const name of await namesIn(join(folder, inside), disk)) {
    const path = inside === "" ? name : `${inside}/${name}`;
    if (isCopiedPath(path)) found.push(path);
    else if (isCopiedFolder(name) && isCopiedPath(`${path}/x.json`)) found.push(...(await filesIn(folder, path, disk)));
  }
  return found;
}

/** Names in a folder; a stranger's file that looks like a folder has none. */
async function namesIn(folder: string, disk: Disk): Promise<readonly string[]> {
  try {
    return await disk.list(folder);
  } catch (fault) {
    if (fault instanceof UnfitFile) return [];
    throw fault;
  }
}
