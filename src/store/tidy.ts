import { join } from "node:path";
import { type Disk, UnfitFile } from "./disk.ts";
import { isTemporary } from "./durableFile.ts";
import { draftsFolder, indexFolder, libraryFolder, logFolder, monthFolder, SHELVES } from "./layout.ts";

/**
 * Removes what a crash left half written: temporary files, which no name of ours ever pointed to. Of the log only the months
 * that were last written to are looked at.
 */
export async function clearTemporary(folder: string, months: readonly string[], disk: Disk): Promise<void> {
  const places = [
    folder,
    draftsFolder(folder),
    logFolder(folder),
    indexFolder(folder),
    ...SHELVES.map((shelf) => libraryFolder(folder, shelf)),
    ...months.map((month) => monthFolder(folder, month)),
  ];
  for (const place of places)
    for (const name of await namesIn(place, disk)) if (isTemporary(name)) await disk.remove(join(place, name));
}

/** What is no folder of ours is told by whoever wants to read it. */
async function namesIn(place: string, disk: Disk): Promise<readonly string[]> {
  try {
    return await disk.list(place);
  } catch (fault) {
    if (fault instanceof UnfitFile) return [];
    throw fault;
  }
}
