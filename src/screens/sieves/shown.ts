import type { Condition } from "../../care/conditionOf.ts";
import { sieveOf } from "../../care/register/register.ts";
import type { LedgerNote, SieveLife } from "../../record/careLedger.ts";
import type { Sieve, Stack } from "../../record/sieve.ts";
import type { SievePlace, WithCare } from "./places.ts";

/** What the page of a sieve is drawn from. */
export interface SieveShown {
  readonly sieve: Sieve;
  readonly condition: Condition;
  /** Null while it stood in no test and nothing was done to it. */
  readonly life: SieveLife | null;
  readonly notes: readonly LedgerNote[];
  readonly sets: readonly Stack[];
  readonly readabilityG: number;
}

/** Null while it is being read, and for a serial that is not registered. */
export function shownOf({ known, serial }: WithCare<SievePlace>): SieveShown | null {
  if (known === null) return null;
  const { register, conditions, lives, notes, balance } = known;
  const sieve = sieveOf(register, serial);
  const condition = conditions.sieves.find((one) => one.serial === serial);
  if (sieve === undefined || condition === undefined) return null;
  const sets = register.sets.filter(({ serials }) => serials.includes(serial));
  return { sieve, condition, life: lives.get(serial) ?? null, notes, sets, readabilityG: balance.readabilityG };
}
