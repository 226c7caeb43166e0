import type { CareTold, SieveLife, Tally } from "../../record/careLedger.ts";
import type { CareEntry, LogEntry, RegisteredEntry, TestEntry } from "../../record/logEntry.ts";
import { itemName } from "../../record/register.ts";
import { standing } from "../../record/test.ts";
import { isComplete, serialsOf } from "../use/life.ts";
import { useOf as doneTo, type SieveUse } from "../use/useOf.ts";
import { type CareLedger, newLife, UNUSED } from "./ledger.ts";
import { stillNeeded } from "./stillNeeded.ts";
import { thinned } from "./thinned.ts";

const MOST_TOLD = 200;

const lifeOf = ({ lives }: CareLedger, serial: string): SieveLife => lives.get(serial) ?? newLife(serial);

const added = (tally: Tally, { sievedMin, passedKg }: SieveUse): Tally => ({
  tests: tally.tests + 1,
  sievedMin: tally.sievedMin + (sievedMin ?? 0),
  passedKg: tally.passedKg + passedKg,
  untimed: tally.untimed + (sievedMin === null ? 1 : 0),
});

/** When a sieve was weighed empty in a test: when its mass was last accepted, else when the test began. */
function weighedAt({ test }: TestEntry, apertureUm: number): string {
  const item = standing(test.trail).findLast((one) => one.field === "emptyG" && one.apertureUm === apertureUm);
  return item?.at ?? test.startedAt;
}

function takeTest(ledger: CareLedger, entry: TestEntry): boolean {
  const { test, number, day } = entry;
  for (const { serial, apertureUm, emptyG } of test.weighings) {
    const use = serial === undefined ? null : doneTo(test, serial);
    if (serial === undefined || use === null || apertureUm === 0) continue;
    const life = lifeOf(ledger, serial);
    const weighed =
      emptyG === null ? [] : [{ number, day, at: weighedAt(entry, apertureUm), testId: test.testId, emptyG }];
    const weighings = [...life.weighings, ...weighed].toSorted((a, b) => a.number - b.number);
    const used = { used: added(life.used, use), ever: added(life.ever, use) };
    ledger.lives.set(serial, { ...life, apertureUm, ...used, weighings: [...thinned(life, weighings)] });
  }
  if (test.set !== undefined) ledger.sets.set(test.product.code, test.set);
  return test.set !== undefined || test.weighings.some(({ serial }) => serial !== undefined);
}

/** An empty mass that was corrected is read as corrected; one that was taken away is gone. */
function takeCorrection({ lives }: CareLedger, entry: Extract<LogEntry, { kind: "correction" }>): boolean {
  const changes = entry.changes.flatMap((change) => (change.field === "emptyG" ? [change] : []));
  for (const { apertureUm, to } of changes) {
    const life = [...lives.values()].find(
      (one) => one.apertureUm === apertureUm && one.weighings.some((w) => w.number === entry.of.number),
    );
    const weighings = life?.weighings.flatMap((w) => {
      if (w.number !== entry.of.number) return [w];
      return to === null ? [] : [{ ...w, emptyG: to }];
    });
    if (life && weighings) lives.set(life.serial, { ...life, weighings });
  }
  return changes.length > 0;
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
 * @returns whether it told anything
 */
export function take(ledger: CareLedger, entry: LogEntry): boolean {
  switch (entry.kind) {
    case "test":
      return takeTest(ledger, entry);
    case "correction":
      return takeCorrection(ledger, entry);
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
