import type { Disk } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";
import { type Codec, durableFile, UnreadableFile } from "./durableFile.ts";
import { shortName } from "./layout.ts";
import { setAside } from "./setAside.ts";

/** What every drawer of the store shares: whose folder it is, by which disk, what went wrong, who may write. */
export interface Cabinet {
  readonly folder: string;
  readonly disk: Disk;
  readonly problems: string[];
  /** Takes down for the log what was found amiss or put right; absent where nothing is ever written. */
  readonly findings?: { add(found: string): void };
  /** Why nothing may be written; null while all is well. */
  readOnly(): string | null;
  becomeReadOnly(why: string): void;
  /** Asked before each change, and true at that moment: is the station still ours? Null, or why not. */
  refusal(): Promise<string | null>;
}

/** A file's content, or how it came that there is none. */
export type Found<T> =
  | { readonly is: "read"; readonly content: T }
  | { readonly is: "absent" }
  | { readonly is: "set aside" }
  | { readonly is: "out of reach"; readonly why: string };

/**
 * Reads one file of the station. Unreadable content is set aside and reported; a file of a newer program makes the whole
 * store read-only; a fault of the disk leaves the file where it is and is reported.
 */
export async function readFrom<T>(cabinet: Cabinet, path: string, codec: Codec<T>): Promise<Found<T>> {
  try {
    const content = await durableFile(path, codec, cabinet.disk).read();
    return content === null ? { is: "absent" } : { is: "read", content };
  } catch (fault) {
    const name = shortName(cabinet.folder, path);
    if (!(fault instanceof UnreadableFile)) return outOfReach(cabinet, diskTrouble(fault, `${name} can't be read`));
    if (fault.outcome !== "newer version") return putAside(cabinet, path, fault.message);
    const why = `${name} was ${fault.message}. Nothing is changed by this older one: update it`;
    cabinet.becomeReadOnly(why);
    return outOfReach(cabinet, why);
  }
}

function outOfReach(cabinet: Cabinet, why: string): Found<never> {
  report(cabinet, why);
  return { is: "out of reach", why };
}

/** Takes an unreadable file out of the way under another name, so that nothing is ever written over it. */
export async function putAside(cabinet: Cabinet, path: string, why: string): Promise<Found<never>> {
  const name = shortName(cabinet.folder, path);
  if (cabinet.readOnly() !== null) return outOfReach(cabinet, `${name} can't be read: ${why}. It was left as it is`);
  try {
    const aside = await setAside(path, cabinet.disk);
    const tells = name.startsWith("index/") ? report : found; // an index is no record, and is drawn again
    tells(
      cabinet,
      `${name} can't be read: ${why}. It was kept as ${shortName(cabinet.folder, aside)}; bring it to whoever looks after this computer, or restore it from a backup`,
    );
    return { is: "set aside" };
  } catch (fault) {
    return outOfReach(cabinet, diskTrouble(fault, `${name} can't be read (${why}) nor set aside`));
  }
}

/** A problem that is no passing one: it is told to the operator and to the log. */
export function found(cabinet: Cabinet, problem: string): void {
  report(cabinet, problem);
  cabinet.findings?.add(problem);
}

export function report(cabinet: Cabinet, problem: string): void {
  if (!cabinet.problems.includes(problem)) cabinet.problems.push(problem);
}
