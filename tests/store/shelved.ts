import { mkdir, writeFile } from "node:fs/promises";
import { dirname } from "node:path";
import type { Sieve } from "../../src/record/sieve.ts";
import { libraryPath } from "../../src/store/layout.ts";

/** Puts a sieve on the shelf of a station as a plant or an older program left it there: as a file, untold to the log. */
export async function shelved(folder: string, sieve: Sieve): Promise<void> {
  const path = libraryPath(folder, "sieves", sieve.serial);
  await mkdir(dirname(path), { recursive: true });
  await writeFile(path, JSON.stringify(sieve));
}
