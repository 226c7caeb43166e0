import { join } from "node:path";
import type { Disk } from "./disk.ts";
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
    for (const name of await disk.list(place)) if (isTemporary(name)) await disk.remove(join(place, name));
}
