import { basename, dirname, join } from "node:path";
import type { Disk } from "./disk.ts";
import { whileBusy } from "./whileBusy.ts";

/** Renames a file to `<name>.unreadable`, or `.unreadable-2`, ... where that is taken; answers with the new path. */
export async function setAside(path: string, disk: Disk): Promise<string> {
  const folder = dirname(path);
  const taken = new Set(await disk.list(folder));
  const aside = freeName(`${basename(path)}.unreadable`, taken);
  await whileBusy(() => disk.rename(path, join(folder, aside)), disk);
  await disk.syncFolder(folder);
  return join(folder, aside);
}

function freeName(wanted: string, taken: ReadonlySet<string>): string {
  if (!taken.has(wanted)) return wanted;
  let n = 2;
  while (taken.has(`${wanted}-${n}`)) n += 1;
  return `${wanted}-${n}`;
}
