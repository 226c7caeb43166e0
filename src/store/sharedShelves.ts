import canonicalize from "canonicalize";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Product } from "../record/product.ts";
import { nameRefusal, revisionName } from "./layout.ts";
import { arrival, productShelf } from "./productShelf.ts";
import type { Store } from "./store.ts";

/** All that is on the shelves as the import goes on; what comes in counts for what comes after it, on a dry run too. */
export class SharedShelves {
  products: Product[] = [];
  readonly named = { programs: new Map<string, object>(), stacks: new Map<string, object>() };

  static async of(store: Store): Promise<SharedShelves> {
    const shelves = new SharedShelves();
    const shelf = await store.products();
    shelves.products = shelf.codes.flatMap((code) => shelf.revisions(code));
    for (const program of await store.programs()) shelves.named.programs.set(program.code, program);
    for (const stack of await store.stacks()) shelves.named.stacks.set(stack.code, stack);
    return shelves;
  }

  standingOf(product: Product): Outcome<"new" | "already there"> {
    const unfit = nameRefusal(revisionName(product));
    if (unfit !== null) return refused(unfit);
    const coming = arrival(product, productShelf(this.products));
    return coming.is === "refused" ? refused(coming.why) : accepted(coming.is);
  }

  /** Programs and stacks have no revisions: what is there under the same code is never replaced by an import. */
  standingOfNamed(kind: "programs" | "stacks", record: { readonly code: string }): Outcome<"new" | "already there"> {
    const unfit = nameRefusal(record.code);
    if (unfit !== null) return refused(unfit);
    const known = this.named[kind];
    const word = kind.slice(0, -1);
    const twin = [...known.keys()].find((code) => code.toLowerCase() === record.code.toLowerCase());
    if (twin === undefined) return accepted("new");
    if (canonicalize(known.get(twin)) === canonicalize(record)) return accepted("already there");
    return refused(`${word} ${twin} is in the library with other content, and an import replaces nothing`);
  }
}
