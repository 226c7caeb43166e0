import { createHash } from "node:crypto";
import { join } from "node:path";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Product } from "../record/product.ts";
import { readProduct, readProgram, readStack } from "../record/readExchanged.ts";
import type { Disk } from "./disk.ts";
import { realDisk } from "./realDisk.ts";
import { readSharedFolder, type SharedFile } from "./sharedFolder.ts";
import type { ImportedFile, Importing, ImportReport } from "./sharedReport.ts";
import { SharedShelves } from "./sharedShelves.ts";
import type { Store } from "./store.ts";

/** One readable file, with how to tell whether it is new and how to load it. */
interface Candidate {
  readonly file: SharedFile;
  readonly what: string;
  readonly sha256: string;
  /** Lower ones are loaded first: programs before the products that name them, revisions in their order. */
  readonly order: readonly [number, number];
  readonly product: Product | null;
  readonly standing: () => Outcome<"new" | "already there">;
  readonly load: () => Promise<Outcome<unknown>>;
}

type Read = { readonly candidate: Candidate } | { readonly unfit: ImportedFile };

const sha256Of = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

const line = (file: SharedFile, is: ImportedFile["is"], more: Partial<ImportedFile> = {}): ImportedFile => ({
  file: file.name,
  what: null,
  is,
  why: null,
  note: null,
  sha256: file.bytes.ok ? sha256Of(file.bytes.value) : null,
  ...more,
});

const LONGEST_FROM = 400;

/** Reads, checks and loads the files of a shared folder for one station. */
class SharedImport {
  readonly #store: Store;
  readonly #folder: string;
  readonly #how: Importing;
  readonly #shelves: SharedShelves;

  constructor(store: Store, folder: string, how: Importing, shelves: SharedShelves) {
    this.#store = store;
    this.#folder = folder;
    this.#how = how;
    this.#shelves = shelves;
  }

  async all(files: readonly SharedFile[]): Promise<readonly ImportedFile[]> {
    const read = files.map((file) => this.#read(file));
    const unfit = read.flatMap((one) => ("unfit" in one ? [one.unfit] : []));
    const candidates = read.flatMap((one) => ("candidate" in one ? [one.candidate] : [])).sort(byOrder);
    const done: ImportedFile[] = [];
    for (const candidate of candidates) done.push(await this.#take(candidate));
    return [...unfit, ...done].sort((a, b) => (a.file < b.file ? -1 : 1));
  }

  async #take(candidate: Candidate): Promise<ImportedFile> {
    const { file, what, product } = candidate;
    const standing = candidate.standing();
    if (!standing.ok) return line(file, "refused", { what, why: standing.reason });
    if (standing.value === "already there") return line(file, "already there", { what });
    const loaded = this.#how.dryRun ? accepted(undefined) : await candidate.load();
    if (!loaded.ok) return line(file, "refused", { what, why: loaded.reason });
    if (product !== null) this.#shelves.products.push(product);
    return line(file, "new", { what, note: product === null ? null : this.#missingProgram(product) });
  }

  #missingProgram({ method }: Product): string | null {
    const named = method?.program;
    if (named === undefined || this.#shelves.named.programs.has(named)) return null;
    return `its program ${named} is neither in this folder nor in the library`;
  }

  #read(file: SharedFile): Read {
    if (!file.bytes.ok) return { unfit: line(file, "refused", { why: file.bytes.reason }) };
    const bytes = file.bytes.value;
    const candidate = file.kind === "products" ? this.#product(file, bytes) : this.#named(file, file.kind, bytes);
    return candidate.ok ? { candidate: candidate.value } : { unfit: line(file, "refused", { why: candidate.reason }) };
  }

  #product(file: SharedFile, bytes: Uint8Array): Outcome<Candidate> {
    const read = readProduct(bytes);
    if (!read.ok) return read;
    const product = read.value;
    const sha256 = sha256Of(bytes);
    const { by, at } = this.#how;
    const loading = { fromPath: this.#from(file), bytesSha256: sha256, by, at };
    return accepted({
      file,
      what: `${product.code} revision ${product.revision}`,
      sha256,
      order: [1, product.revision],
      product,
      standing: () => this.#shelves.standingOf(product),
      load: () => this.#store.addProduct(product, loading),
    });
  }

  #named(file: SharedFile, kind: "programs" | "stacks", bytes: Uint8Array): Outcome<Candidate> {
    const read = kind === "programs" ? readProgram(bytes) : readStack(bytes);
    if (!read.ok) return read;
    const record = read.value;
    const what = `${kind === "programs" ? "program" : "stack"} ${record.code}`;
    const sha256 = sha256Of(bytes);
    const { by, at } = this.#how;
    const loading = { fromPath: this.#from(file), bytesSha256: sha256, by, at };
    const load = () =>
      record.schema === "sievewright.program/1"
        ? this.#store.addProgram(record, loading)
        : this.#store.addStack(record, loading);
    const standing = () => {
      const found = this.#shelves.standingOfNamed(kind, record);
      if (found.ok) this.#shelves.named[kind].set(record.code, record);
      return found;
    };
    return accepted({ file, what, sha256, order: [0, 0], product: null, standing, load });
  }

  #from({ name }: SharedFile): string {
    const path = join(this.#folder, name);
    return path.length <= LONGEST_FROM ? path : path.slice(-LONGEST_FROM);
  }
}

const byOrder = (a: Candidate, b: Candidate): number => a.order[0] - b.order[0] || a.order[1] - b.order[1];

/**
 * Loads what a plant publishes into one station's library: every product, program and stack file of the shared folder that
 * is valid and new. A faulty file hinders only itself; nothing that is there is replaced; what is loaded is told to the log
 * with the SHA-256 of its bytes and where it came from.
 *
 * @returns what became of each file (on a dry run: what would), or why the folder can't be imported at all
 */
export async function importShared(
  store: Store,
  folder: string,
  how: Importing,
  disk: Disk = realDisk,
): Promise<Outcome<ImportReport>> {
  const why = how.dryRun ? null : (store.readOnly ?? store.operators.refusal("publish a product"));
  if (why !== null) return refused(why);
  const files = await readSharedFolder(folder, disk);
  if (!files.ok) return files;
  const found = await new SharedImport(store, folder, how, await SharedShelves.of(store)).all(files.value);
  return accepted({ folder, dryRun: how.dryRun, files: found });
}
