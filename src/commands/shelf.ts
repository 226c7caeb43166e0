import { dayInForce } from "../record/dayInForce.ts";
import type { ProductDraft } from "../record/productDraft.ts";
import { Library } from "../store/library.ts";
import { realDisk } from "../store/realDisk.ts";
import { readStation } from "../store/stationFile.ts";
import type { ProductShelf } from "../store/store.ts";
import type { Io } from "./io.ts";
import { readOnlyCabinet } from "./readOnlyCabinet.ts";

export interface Shelf {
  readonly products: ProductShelf;
  readonly drafts: readonly ProductDraft[];
  /** The day that counts for what is in force: the station's production day, without a station today. */
  readonly day: string;
  /** What could not be read; where nothing lies there is no problem, only an empty shelf. */
  readonly problems: readonly string[];
}

/** The products of a station's library, without its lock, changing and making nothing. */
export async function readShelf(folder: string, { now }: Pick<Io, "now">): Promise<Shelf> {
  const cabinet = readOnlyCabinet(folder);
  const library = new Library(cabinet);
  const station = await readStation(folder, realDisk);
  const dayBegins = station.ok ? (station.value?.dayBegins ?? MIDNIGHT) : MIDNIGHT;
  return {
    products: await library.products(),
    drafts: await library.productDrafts.list(),
    day: dayInForce(now(), dayBegins),
    problems: cabinet.problems,
  };
}

const MIDNIGHT = "00:00";
