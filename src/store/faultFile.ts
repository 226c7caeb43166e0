import { lstatSync, mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/**
 * Keeps the report of a fault in the station's `faults/` or, where that can't be, in a fresh temporary folder; for this
 * user's eyes only. At once, not later: the program is at its end, and nothing it waits for comes to pass any more.
 *
 * @param folder the station's; null where none is open
 * @returns the report's path; null when it could be kept nowhere
 */
export function keepFaultReport(folder: string | null, name: string, text: string): string | null {
  const inStation = folder === null ? null : kept(() => faultsFolder(folder), name, text);
  return inStation ?? kept(() => mkdtempSync(join(tmpdir(), "sievewright-fault-")), name, text);
}

function kept(place: () => string, name: string, text: string): string | null {
  try {
    const path = join(place(), name);
    writeFileSync(path, text, { flag: "wx", mode: 0o600 });
    return path;
  } catch {
    return null;
  }
}

/** Not made anew together with a station that is gone, and never a link to elsewhere. */
function faultsFolder(folder: string): string {
  const faults = join(folder, "faults");
  mkdirSync(faults, { recursive: lstatSync(folder).isDirectory(), mode: 0o700 });
  if (!lstatSync(faults).isDirectory()) throw new Error(`${faults} is no folder`);
  return faults;
}
