import { Library } from "../store/library.ts";
import type { ProductShelf } from "../store/store.ts";
import { readOnlyCabinet } from "./readOnlyCabinet.ts";

export interface Shelf {
  readonly products: ProductShelf;
  /** What could not be read; where nothing lies there is no problem, only an empty shelf. */
  readonly problems: readonly string[];
}

/** The products of a station's library, without its lock, changing and making nothing. */
export async function readShelf(folder: string): Promise<Shelf> {
  const cabinet = readOnlyCabinet(folder);
  return { products: await new Library(cabinet).products(), problems: cabinet.problems };
}
