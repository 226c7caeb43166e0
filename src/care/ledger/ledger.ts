import type { LedgerNote, RegisterRow, SieveLife, Tally } from "../../record/careLedger.ts";
import type { BalanceCheck } from "../../record/checks.ts";
import type { AmendmentRef } from "../../record/indexRow.ts";
import { FIRST_PREVIOUS } from "../../record/seal.ts";

/** The latest check of a balance and where the log tells of it. */
export interface BalanceChecked {
  readonly number: number;
  readonly day: string;
  readonly check: BalanceCheck;
}

/** All that the log tells of sieves, balances and weights. What is in the maps is never changed in place. */
export interface CareLedger {
  head: { readonly number: number; readonly day: string | null; readonly seal: string };
  /** By serial. */
  readonly lives: Map<string, SieveLife>;
  /** By the number of the entry. */
  readonly notes: Map<number, LedgerNote>;
  /** By `itemName`. */
  readonly register: Map<string, RegisterRow>;
  /** By the balance's id. */
  readonly checks: Map<string, BalanceChecked>;
  /** The set used last, by the product's code. */
  readonly sets: Map<string, string>;
  /** Later entries about tests of known sieves, by their number. */
  readonly amendments: Map<number, AmendmentRef>;
  /** Null when it was drawn from the whole log, else the days it was drawn from: entries of others could not be read. */
  short: Set<string> | null;
}

/** The ledger of a log that has no entry yet. */
export const emptyLedger = (): CareLedger => ({
  head: { number: 0, day: null, seal: FIRST_PREVIOUS },
  lives: new Map(),
  notes: new Map(),
  register: new Map(),
  checks: new Map(),
  sets: new Map(),
  amendments: new Map(),
  short: null,
});

export const UNUSED: Tally = { tests: 0, sievedMin: 0, passedKg: 0, untimed: 0 };

/** The life of a sieve of which nothing is told yet. */
export const newLife = (serial: string): SieveLife => ({
  serial,
  apertureUm: null,
  used: UNUSED,
  ever: UNUSED,
  weighings: [],
  begunAt: null,
  cleanedAt: null,
  told: [],
  toldInAll: 0,
});

export const lifeOf = ({ lives }: CareLedger, serial: string): SieveLife => lives.get(serial) ?? newLife(serial);
