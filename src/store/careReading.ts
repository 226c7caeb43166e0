import type { CheckNote } from "../care/apertureChosen.ts";
import type { CareTold } from "../record/careLedger.ts";
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
/** Runs with a reference material that are read for the history of a sieve's aperture, the latest so many. */
const MOST_CHECKS = 40;

export interface SieveTold {
  /** Newest first. */
  readonly entries: readonly LifeEntry[];
  /** How many older ones there are besides. */
  readonly older: number;
  /** Its runs with a reference material, oldest first; of another item none. */
  readonly checks: readonly CheckNote[];
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
  const checks = await checksTold(store, done, entries);
  return { entries, older: Math.max(0, refs.length - MOST_READ), checks };
}

function checkIn(entry: LifeEntry): CheckNote[] {
  if (entry.kind !== "care") return [];
  const { number, day, at, care } = entry;
  return care.did === "reference check" ? [{ number, day, at, care }] : [];
}

/** The runs with a reference material among what was done: from the entries that were read already, else from the log. */
async function checksTold(
  store: Pick<Store, "entry">,
  done: readonly CareTold[],
  read: readonly LifeEntry[],
): Promise<readonly CheckNote[]> {
  const checks: CheckNote[] = [];
  for (const { day, number } of done.filter(({ did }) => did === "reference check").slice(-MOST_CHECKS)) {
    const known = read.find((entry) => entry.number === number);
    const found = known === undefined ? await store.entry(day, number) : null;
    if (known !== undefined) checks.push(...checkIn(known));
    else if (found?.ok && found.value.kind === "care") checks.push(...checkIn(found.value));
  }
  return checks;
}

/** The product of the latest test in which a sieve stood; null where no test tells of it. */
export async function productOfSieve(store: Read, serial: string): Promise<string | null> {
  const last = (await store.care.reading(serial))?.life.weighings.at(-1);
  const history = last === undefined ? null : await store.history(last);
  return history?.ok ? currentTest(history.value).product.code : null;
}
