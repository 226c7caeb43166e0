import { join } from "node:path";
import { Low } from "lowdb";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Kind } from "../record/migrate.ts";
import { faultInWords } from "../record/migrate.ts";
import { type Cabinet, putAside, readFrom, report } from "./cabinet.ts";
import { diskTrouble } from "./diskWords.ts";
import { codecOf, durableFile } from "./durableFile.ts";
import { libraryFolder, libraryPath, nameRefusal, recordName, type Shelf } from "./layout.ts";
import { whileBusy } from "./whileBusy.ts";

/** One folder of the library: a file for each record, read when first asked for and then kept in memory. */
export class LibraryShelf<T> {
  readonly #cabinet: Cabinet;
  readonly #shelf: Shelf;
  readonly #kind: Kind<T>;
  readonly #nameOf: (record: T) => string;
  /** What a record is called in messages. */
  readonly #word: string;
  /** Names of files that are there and could not be read: nothing is written over them. */
  readonly #outOfReach = new Set<string>();
  #records: Promise<Map<string, T>> | null = null;

  constructor(cabinet: Cabinet, shelf: Shelf, kind: Kind<T>, nameOf: (record: T) => string, word: string = kind.name) {
    this.#cabinet = cabinet;
    this.#shelf = shelf;
    this.#kind = kind;
    this.#nameOf = nameOf;
    this.#word = word;
  }

  /** In the order of the names. */
  async list(): Promise<readonly T[]> {
    const byName = [...(await this.#loaded())].sort(([a], [b]) => (a < b ? -1 : 1));
    return byName.map(([, record]) => record);
  }

  /** Why a record can't be put here; null when it can. */
  async refusal(record: T): Promise<string | null> {
    const parsed = this.#kind.schema.safeParse(record);
    if (!parsed.success) return `the ${this.#word} can't be kept: ${faultInWords(parsed.error)}`;
    const name = this.#nameOf(record);
    const twin = [...(await this.#loaded()).keys()].find((known) => known.toLowerCase() === name.toLowerCase());
    if (twin !== undefined && twin !== name) return `${name} differs from ${twin} only by letter case; use ${twin}`;
    if (this.#outOfReach.has(name)) return `${name} is in the library but can't be read; it is not replaced`;
    return nameRefusal(name);
  }

  /** Puts a record on the shelf, in place of one of the same name. */
  async put(record: T): Promise<Outcome<void>> {
    const why = await this.refusal(record);
    if (why !== null) return refused(why);
    const { folder, disk } = this.#cabinet;
    const name = this.#nameOf(record);
    try {
      await disk.makeFolder(libraryFolder(folder, this.#shelf));
      const file = durableFile(libraryPath(folder, this.#shelf, name), codecOf(this.#kind), disk);
      await new Low<T>(file, record).write();
      (await this.#loaded()).set(name, record);
      return accepted(undefined);
    } catch (fault) {
      return refused(diskTrouble(fault, `${this.#word} ${name} is not kept`));
    }
  }

  /** Takes a record off the shelf. Its file goes too, or stays under another name that nothing reads. */
  async take(name: string, keptAs: string | null = null): Promise<Outcome<void>> {
    const { folder, disk } = this.#cabinet;
    const path = libraryPath(folder, this.#shelf, name);
    const shelf = libraryFolder(folder, this.#shelf);
    try {
      if (!(await this.#loaded()).has(name)) return accepted(undefined);
      await whileBusy(() => (keptAs === null ? disk.remove(path) : disk.rename(path, join(shelf, keptAs))), disk);
      await disk.syncFolder(shelf);
      (await this.#loaded()).delete(name);
      return accepted(undefined);
    } catch (fault) {
      return refused(diskTrouble(fault, `${this.#word} ${name} is still there`));
    }
  }

  #loaded(): Promise<Map<string, T>> {
    this.#records ??= this.#read();
    return this.#records;
  }

  async #read(): Promise<Map<string, T>> {
    const records = new Map<string, T>();
    for (const name of await this.#names()) {
      const path = libraryPath(this.#cabinet.folder, this.#shelf, name);
      const found = await readFrom(this.#cabinet, path, codecOf(this.#kind));
      if (found.is === "out of reach") this.#outOfReach.add(name);
      if (found.is !== "read") continue;
      if (this.#nameOf(found.content) === name) records.set(name, found.content);
      else await putAside(this.#cabinet, path, `it holds ${this.#nameOf(found.content)}`);
    }
    return records;
  }

  async #names(): Promise<readonly string[]> {
    const folder = libraryFolder(this.#cabinet.folder, this.#shelf);
    try {
      return (await this.#cabinet.disk.list(folder)).map(recordName).filter((name) => name !== null);
    } catch (fault) {
      report(this.#cabinet, diskTrouble(fault, `library/${this.#shelf} can't be read`));
      return [];
    }
  }
}
