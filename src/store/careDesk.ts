import type { StationConditions } from "../care/conditions.ts";
import type { CareKnown } from "../care/known.ts";
import type { Register } from "../care/register/register.ts";
import type { CareTold, LedgerNote, SieveLife } from "../record/careLedger.ts";
import type { RegisterItem } from "../record/register.ts";
import type { EntryRef } from "../record/shiftEvents.ts";

/** What is known of one sieve. */
export interface CareReading {
  /** What it was used for, and its empty weighings in tests, the older ones thinned out. */
  readonly life: SieveLife;
  /** The entries of the care log that still bear on it, whole, oldest first. */
  readonly notes: readonly LedgerNote[];
  /** All that was done to it, oldest first, as far as it is kept; the entries lie where these say. */
  readonly told: readonly CareTold[];
}

/**
 * Sieves, balances and weights, as the log tells of them. To register or to note care is to `record` an entry of kind
 * "registered" or "care", which refuses what does not fit. Every answer costs the same however long the log.
 */
export interface CareDesk {
  /** Each item as it was registered last. */
  register(): Promise<Register>;
  /** The entries that registered an item and changed it, oldest first; none for what only the library knows. */
  revisionsOf(item: RegisterItem): Promise<readonly EntryRef[]>;
  /** Null for a serial that neither the register nor any test knows. */
  reading(serial: string): Promise<CareReading | null>;
  /** Of everything registered, on one day (ISO date of the station). */
  conditions(today: string): Promise<StationConditions>;
  /** The set that a product was tested with last; null where none is known. */
  lastSet(productCode: string): Promise<string | null>;
  /** All of it at once, as it stands on a day. */
  known(today: string): Promise<CareKnown>;
}
