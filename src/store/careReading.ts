import type { CareEntry, RegisteredEntry } from "../record/logEntry.ts";
import type { RegisterItem } from "../record/register.ts";
import { currentTest } from "../record/versions.ts";
import type { Store } from "./store.ts";

/** Something in the life of a sieve: an entry of the log, or that it is out of reach. */
export type LifeEntry =
  | CareEntry
  | RegisteredEntry
  | { readonly kind: "out of reach"; readonly number: number; readonly at: string; readonly reason: string };

/** Entries of a life that are read whole; what is older is told by its kind alone. */
const MOST_READ = 60;

export interface SieveTold {
  /** Newest first. */
  readonly entries: readonly LifeEntry[];
  /** How many older ones there are besides. */
  readonly older: number;
}

type Read = Pick<Store, "care" | "entry" | "history">;

/** What the log tells of one item and, of a sieve, of what was done to it; the newest so many entries. */
export async function lifeTold(store: Read, item: RegisterItem): Promise<SieveTold> {
  const revisions = await store.care.revisionsOf(item);
  const done = item.schema === "sievewright.sieve/1" ? ((await store.care.reading(item.serial))?.told ?? []) : [];
  const refs = [...revisions.map((ref) => ({ ...ref, at: ref.day })), ...done].toSorted((a, b) => b.number - a.number);
  const entries: LifeEntry[] = [];
  for (const { day, number, at } of refs.slice(0, MOST_READ)) {
    const read = await store.entry(day, number);
    if (!read.ok) entries.push({ kind: "out of reach", number, at, reason: read.reason });
    else if (read.value.kind === "care" || read.value.kind === "registered") entries.push(read.value);
  }
  return { entries, older: Math.max(0, refs.length - MOST_READ) };
}

/** The product of the latest test in which a sieve stood; null where no test tells of it. */
export async function productOfSieve(store: Read, serial: string): Promise<string | null> {
  const last = (await store.care.reading(serial))?.life.weighings.at(-1);
  const history = last === undefined ? null : await store.history(last);
  return history?.ok ? currentTest(history.value).product.code : null;
}
