import { join } from "node:path";
import type { Disk } from "./disk.ts";
import { isTemporary } from "./durableFile.ts";
import { draftsFolder, indexFolder, libraryFolder, logFolder, monthFolder, SHELVES } from "./layout.ts";
import { monthsIn } from "./logFolder.ts";

/** Removes what a crash left half written: temporary files, which no name of ours ever pointed to. */
export async function clearTemporary(folder: string, disk: Disk): Promise<void> {
  const newest = (await monthsIn(folder, disk))[0];
  const places = [
    folder,
    draftsFolder(folder),
    logFolder(folder),
    indexFolder(folder),
    ...SHELVES.map((shelf) => libraryFolder(folder, shelf)),
    ...(newest === undefined ? [] : [monthFolder(folder, newest)]),
  ];
  for (const place of places)
    for (const name of await disk.list(place)) if (isTemporary(name)) await disk.remove(join(place, name));
}
