import canonicalize from "canonicalize";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { productKind, programKind, sieveKind, stackKind } from "../record/kinds.ts";
import type { LogEntry, NewEntry } from "../record/logEntry.ts";
import type { Product } from "../record/product.ts";
import { type ProductDraft, productDraftKind } from "../record/productDraft.ts";
import type { Program } from "../record/program.ts";
import { sealOf } from "../record/seal.ts";
import type { Sieve, Stack } from "../record/sieve.ts";
import type { Cabinet } from "./cabinet.ts";
import { revisionName } from "./layout.ts";
import { LibraryShelf } from "./libraryShelf.ts";
import { arrival, productShelf } from "./productShelf.ts";
import type { Loading, ProductShelf } from "./store.ts";

type Record = (entry: NewEntry) => Promise<Outcome<LogEntry>>;

/** What a station has loaded: product revisions, programs, sieves and stacks; and what is drafted there. */
export class Library {
  readonly programs: LibraryShelf<Program>;
  readonly sieves: LibraryShelf<Sieve>;
  readonly stacks: LibraryShelf<Stack>;
  readonly productDrafts: LibraryShelf<ProductDraft>;
  readonly #products: LibraryShelf<Product>;

  constructor(cabinet: Cabinet) {
    this.#products = new LibraryShelf(cabinet, "products", productKind, revisionName);
    this.productDrafts = new LibraryShelf(
      cabinet,
      "product-drafts",
      productDraftKind,
      ({ code }) => code,
      "draft of product",
    );
    this.programs = new LibraryShelf(cabinet, "programs", programKind, ({ code }) => code);
    this.sieves = new LibraryShelf(cabinet, "sieves", sieveKind, ({ serial }) => serial);
    this.stacks = new LibraryShelf(cabinet, "stacks", stackKind, ({ code }) => code);
  }

  async products(): Promise<ProductShelf> {
    return productShelf(await this.#products.list());
  }

  /** Whether a revision can come in, or why it can't. */
  async admission(product: Product): Promise<Outcome<"new" | "already there">> {
    const unfit = await this.#products.refusal(product);
    if (unfit !== null) return refused(unfit);
    const coming = arrival(product, await this.products());
    return coming.is === "refused" ? refused(coming.why) : accepted(coming.is);
  }

  /** Puts a revision on the shelf that the log knows of. */
  async shelve(product: Product): Promise<Outcome<void>> {
    return this.#products.put(product);
  }

  /** Logs first, then puts the revision on the shelf: none can be used that the log doesn't know of. */
  async addProduct(product: Product, loading: Loading, record: Record): Promise<Outcome<"added" | "already there">> {
    const coming = await this.admission(product);
    if (!coming.ok) return coming;
    if (coming.value === "already there") return accepted("already there");
    const { code, revision } = product;
    const { fromPath: from, bytesSha256: sha256, by, at } = loading;
    const contentSha256 = sealOf(product);
    const logged = await record({ kind: "product loaded", at, by, code, revision, from, sha256, contentSha256 });
    if (!logged.ok) return logged;
    const put = await this.shelve(product);
    return put.ok ? accepted("added") : refused(`${put.reason}. Load it again afterwards`);
  }

  addProgram(program: Program, loading: Loading, record: Record): Promise<Outcome<"added" | "already there">> {
    return addNamed("program", this.programs, program, loading, record);
  }

  addStack(stack: Stack, loading: Loading, record: Record): Promise<Outcome<"added" | "already there">> {
    return addNamed("stack", this.stacks, stack, loading, record);
  }
}

/** Logs first, as for products. Programs and stacks have no revisions: one that is there is never replaced. */
async function addNamed<T extends Program | Stack>(
  what: "program" | "stack",
  shelf: LibraryShelf<T>,
  coming: T,
  { fromPath: from, bytesSha256: sha256, by, at }: Loading,
  record: Record,
): Promise<Outcome<"added" | "already there">> {
  const unfit = await shelf.refusal(coming);
  if (unfit !== null) return refused(unfit);
  const { code } = coming;
  const known = (await shelf.list()).find((one) => one.code === code);
  if (known !== undefined && canonicalize(known) === canonicalize(coming)) return accepted("already there");
  if (known !== undefined)
    return refused(
      `${what} ${code} is in the library with other content; nothing replaces it. Give the change a new code`,
    );
  const contentSha256 = sealOf(coming);
  const logged = await record({ kind: "program loaded", at, by, what, code, from, sha256, contentSha256 });
  if (!logged.ok) return logged;
  const put = await shelf.put(coming);
  return put.ok ? accepted("added") : refused(`${put.reason}. Load it again afterwards`);
}
