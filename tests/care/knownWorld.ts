import { stationConditions } from "../../src/care/conditions.ts";
import type { CareKnown } from "../../src/care/known.ts";
import { emptyLedger } from "../../src/care/ledger/ledger.ts";
import { take } from "../../src/care/ledger/take.ts";
import { registerOf } from "../../src/care/register/register.ts";
import type { Care } from "../../src/record/care.ts";
import type { LogEntry } from "../../src/record/logEntry.ts";
import type { RegisterItem } from "../../src/record/register.ts";
import type { Sieve, Stack } from "../../src/record/sieve.ts";

const BALANCE = { readabilityG: 0.01, repeatabilityG: 0.01 };

/** What a station knows that has registered these and whose log holds these entries. */
export function knownOf(
  items: readonly RegisterItem[],
  entries: readonly LogEntry[] = [],
  today = "2026-11-24",
): CareKnown {
  const ledger = emptyLedger();
  for (const entry of entries) take(ledger, entry);
  const register = registerOf(items);
  const conditions = stationConditions(register, ledger, { balance: BALANCE }, today);
  const { lives, notes, sets } = ledger;
  return { register, conditions, lives, notes: [...notes.values()], lastSets: sets, balance: BALANCE };
}

export const NOTHING_KNOWN = knownOf([]);

export const sieveOf = (serial: string, apertureUm: number, more: Partial<Sieve> = {}): Sieve => ({
  schema: "sievewright.sieve/1",
  serial,
  apertureUm,
  firstUse: "2026-10-01",
  ...more,
});

export const setOf = (code: string, ...serials: string[]): Stack => ({
  schema: "sievewright.stack/1",
  code,
  name: `set ${code.slice(-1)}`,
  serials,
});

const sealed = (number: number, at: string) => ({
  number,
  at,
  day: at.slice(0, 10),
  station: "TH-DRY1",
  by: "KO",
  previous: "0".repeat(64),
});

export const careEntry = (number: number, at: string, care: Care): LogEntry => ({
  kind: "care",
  ...sealed(number, at),
  care,
});
