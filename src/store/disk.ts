/**
 * All that the store asks of a disk; tests put another one in and pull the plug at any step. Paths are absolute.
 * A fault of the disk is thrown as node throws it, with its `code`.
 */
export interface Disk {
  /** The bytes of a plain file; null when there is none. Throws `UnfitFile` for a link, a folder, a device, a giant. */
  read(path: string): Promise<Uint8Array | null>;
  /** Makes a file that was not there (else EEXIST), open to its owner alone, and flushes it; none when that fails. */
  writeAndSync(path: string, content: string | Uint8Array): Promise<void>;
  rename(from: string, to: string): Promise<void>;
  /** Fine when there is nothing to remove. */
  remove(path: string): Promise<void>;
  /** Flushes the names in a folder, where the platform can. */
  syncFolder(folder: string): Promise<void>;
  /** Names in a folder, sorted; none when it isn't there. Throws `UnfitFile` for a link. */
  list(folder: string): Promise<readonly string[]>;
  /** Makes a folder and its parents, open to the owner alone, and flushes their names. */
  makeFolder(folder: string): Promise<void>;
  /** When the file was last written, in ms by the disk's own clock; null when there is none. */
  modifiedAtMs(path: string): Promise<number | null>;
  /** Writes this over the first characters of a file that is there, so that it counts as just written. */
  touch(path: string, start: string): Promise<void>;
  /** The folder's one true name, links followed. */
  trueName(folder: string): Promise<string>;
  pause(ms: number): Promise<void>;
}

/** Something lies where a file of ours should, and it is no plain file; nothing is read or written through it. */
export class UnfitFile extends Error {
  override readonly name = "UnfitFile";
}

/** The code that node gives a fault of the disk, e.g. "ENOSPC"; empty for anything else. */
export const codeOf = (fault: unknown): string =>
  fault instanceof Error && "code" in fault && typeof fault.code === "string" ? fault.code : "";
