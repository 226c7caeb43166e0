import type { CareTold, SieveLife } from "../../record/careLedger.ts";
import type { Amendment, CareEntry, LogEntry, RegisteredEntry, TestEntry } from "../../record/logEntry.ts";
import { itemName } from "../../record/register.ts";
import type { TestHistory } from "../../record/versions.ts";
import { isComplete, serialsOf } from "../use/life.ts";
import { type CareLedger, lifeOf, UNUSED } from "./ledger.ts";
import { readAs } from "./readAs.ts";
import { stillNeeded } from "./stillNeeded.ts";

const MOST_TOLD = 200;

const hasSerials = ({ test }: TestEntry): boolean => test.weighings.some(({ serial }) => serial !== undefined);

function takeTest(ledger: CareLedger, entry: TestEntry): boolean {
  const { set, product } = entry.test;
  readAs(ledger, null, { entry, later: [] });
  if (set !== undefined) ledger.sets.set(product.code, set);
  return set !== undefined || hasSerials(entry);
}

/** The test is read otherwise from here on: with other masses, not at all, or again. */
function takeAmendment(ledger: CareLedger, amendment: Amendment, before: TestHistory | undefined): boolean {
  if (before === undefined || !hasSerials(before.entry)) return false;
  const later = [...before.later, amendment].toSorted((a, b) => a.number - b.number);
  readAs(ledger, before, { ...before, later });
  const { day, number, kind, of } = amendment;
  ledger.amendments.set(number, { day, number, kind, of });
  return true;
}

/** What an entry of the care log begins anew in a life: the counts, or what its empty masses are compared with. */
function begins({ care, at }: CareEntry, life: SieveLife): Partial<SieveLife> {
  if (isComplete(care)) return { used: UNUSED };
  if (care.did === "repair" || care.did === "return to service") return { begunAt: at, cleanedAt: null };
  return care.did === "cleaning" && life.cleanedAt === null ? { cleanedAt: at } : {};
}

function takeCare(ledger: CareLedger, entry: CareEntry): boolean {
  const { number, day, at, by, care } = entry;
  const said: CareTold = { number, day, at, by, did: care.did };
  ledger.notes.set(number, { number, day, at, by, care });
  for (const serial of serialsOf(care)) {
    const life = lifeOf(ledger, serial);
    const told = [...life.told, said].slice(-MOST_TOLD);
    ledger.lives.set(serial, { ...life, ...begins(entry, life), told, toldInAll: life.toldInAll + 1 });
  }
  const needed = stillNeeded([...ledger.notes.values()]);
  for (const known of [...ledger.notes.keys()]) if (!needed.has(known)) ledger.notes.delete(known);
  return true;
}

function takeRegistered({ register }: CareLedger, { item, number, day }: RegisteredEntry): boolean {
  const name = itemName(item);
  register.set(name, { item, entries: [...(register.get(name)?.entries ?? []), { number, day }] });
  return true;
}

/**
 * Takes one entry of the log into the ledger: what it tells of sieves, balances and weights. Entries are taken in the
 * order of their numbers.
 *
 * @param before of an entry about a recorded test: that test as it read until then; without it the entry tells nothing
 * @returns whether it told anything
 */
export function take(ledger: CareLedger, entry: LogEntry, before?: TestHistory): boolean {
  switch (entry.kind) {
    case "test":
      return takeTest(ledger, entry);
    case "correction":
    case "voided":
    case "reinstated":
      return takeAmendment(ledger, entry, before);
    case "care":
      return takeCare(ledger, entry);
    case "registered":
      return takeRegistered(ledger, entry);
    case "balance check":
      ledger.checks.set(entry.check.balance, { number: entry.number, day: entry.day, check: entry.check });
      return true;
    default:
      return false;
  }
}
