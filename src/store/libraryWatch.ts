import { join } from "node:path";
import { type LogEntry, LogEntrySchema } from "../record/logEntry.ts";
import { sealOf } from "../record/seal.ts";
import type { Link } from "./chainParts.ts";
import type { Disk } from "./disk.ts";
import { diskTrouble } from "./diskWords.ts";
import { libraryFolder, recordName, revisionName, type Shelf } from "./layout.ts";

/** What the log says lies on a shelf: under which name, by which entry, with which content as far as it tells. */
interface Told {
  readonly shelf: Shelf;
  readonly name: string;
  readonly number: number;
  /** SHA-256 of the canonical JSON; absent in entries of older programs. */
  readonly contentSha256?: string;
}

/** A file of the library that isn't what the log tells of it. */
export interface Unlike {
  readonly file: string;
  readonly how: string;
  /** Not there, as after a power cut between the entry and its file: nothing was judged by it since, and it can be loaded again. */
  readonly gone?: true;
}

/** Shelves on which nothing lies but by an entry of the log. */
const CONTROLLED: readonly Shelf[] = ["products", "programs", "stacks"];
const KINDS: readonly unknown[] = ["product loaded", "product published", "program loaded"];

/** Learns, on the way through a log, what it put into the library, and then compares the files with that. */
export class LibraryWatch {
  readonly #told = new Map<string, Told>();

  readonly pass = (link: Link & { readonly kind?: unknown }): void => {
    if (!KINDS.includes(link.kind)) return;
    const entry = LogEntrySchema.safeParse(link);
    const told = entry.success ? toldBy(entry.data) : null;
    if (told !== null) this.#told.set(fileOf(told.shelf, told.name), told);
  };

  /** Files that were changed, files that no entry tells of, and files that are gone; in the order of their names. */
  async amiss(folder: string, disk: Disk): Promise<readonly Unlike[]> {
    const there: string[] = [];
    const amiss: Unlike[] = [];
    for (const shelf of CONTROLLED)
      for (const name of await namesOn(folder, shelf, disk)) {
        const file = fileOf(shelf, name);
        there.push(file);
        const how = await this.#unlike(file, join(folder, file), disk);
        if (how !== null) amiss.push({ file, how });
      }
    for (const [file, { number }] of this.#told)
      if (!there.includes(file))
        amiss.push({ file, how: `gone: entry ${number} put it there. Load it again`, gone: true });
    return amiss.toSorted((a, b) => (a.file < b.file ? -1 : 1));
  }

  async #unlike(file: string, path: string, disk: Disk): Promise<string | null> {
    const told = this.#told.get(file);
    if (told === undefined) return "no entry of the log tells of it: it did not come in by Sievewright";
    if (told.contentSha256 === undefined) return null;
    const seal = await contentSeal(path, disk);
    if ("trouble" in seal) return `it can't be compared with entry ${told.number}: ${seal.trouble}`;
    return seal.of === told.contentSha256 ? null : `changed: it is not what entry ${told.number} put there`;
  }
}

const fileOf = (shelf: Shelf, name: string): string => `library/${shelf}/${name}.json`;

function toldBy(entry: LogEntry): Told | null {
  const { number } = entry;
  if (entry.kind === "product loaded") {
    const content = entry.contentSha256 === undefined ? {} : { contentSha256: entry.contentSha256 };
    return { shelf: "products", name: revisionName(entry), number, ...content };
  }
  if (entry.kind === "product published")
    return { shelf: "products", name: revisionName(entry), number, contentSha256: entry.sha256 };
  if (entry.kind !== "program loaded") return null;
  return { shelf: `${entry.what}s`, name: entry.code, number, contentSha256: entry.contentSha256 };
}

async function namesOn(folder: string, shelf: Shelf, disk: Disk): Promise<readonly string[]> {
  const names = await disk.list(libraryFolder(folder, shelf)).catch(() => []);
  return names.map(recordName).filter((name) => name !== null);
}

/** The file as it lies there, whatever its schema's number: what was put there was sealed as it is. */
async function contentSeal(path: string, disk: Disk): Promise<{ of: string } | { trouble: string }> {
  try {
    const bytes = await disk.read(path);
    const content: unknown = bytes === null ? null : JSON.parse(new TextDecoder().decode(bytes));
    return typeof content === "object" && content !== null
      ? { of: sealOf(content) }
      : { trouble: "it holds no record" };
  } catch (fault) {
    if (fault instanceof SyntaxError) return { trouble: "it is not JSON" };
    return { trouble: diskTrouble(fault, "it can't be read") };
  }
}
