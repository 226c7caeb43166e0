import type { LedgerNote, SieveLife } from "../record/careLedger.ts";
import type { AmendmentRef } from "../record/indexRow.ts";
import type { StationConditions } from "./conditions.ts";
import type { Register } from "./register/register.ts";
import type { TareChoice } from "./tare/history.ts";

/** All that is known of a station's sieves, balances and weights at one moment. */
export interface CareKnown {
  readonly register: Register;
  readonly conditions: StationConditions;
  /** By serial. */
  readonly lives: ReadonlyMap<string, SieveLife>;
  readonly notes: readonly LedgerNote[];
  /** The set that each product was tested with last, by the product's code. */
  readonly lastSets: ReadonlyMap<string, string>;
  readonly balance: TareChoice;
  /** Later entries about tests in which known sieves stood, in the order of the log. */
  readonly amendments?: readonly AmendmentRef[];
  /** Entries of the log could not be read: counts and histories may fall short of what was done. */
  readonly short?: true;
}
