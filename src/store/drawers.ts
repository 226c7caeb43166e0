import type { Station } from "../record/station.ts";
import type { AmendedTests } from "./amendedTests.ts";
import type { Cabinet } from "./cabinet.ts";
import type { Care } from "./care.ts";
import type { CareLedgerOf } from "./careLedger.ts";
import type { Drafts } from "./drafts.ts";
import type { Findings } from "./findings.ts";
import type { Library } from "./library.ts";
import type { Log } from "./log.ts";
import type { MonthIndex } from "./monthIndex.ts";
import type { OperatorsState } from "./operatorsState.ts";

/** The drawers that a record goes through. */
export interface Drawers {
  readonly cabinet: Cabinet;
  readonly station: Station;
  readonly drafts: Drafts;
  readonly log: Log;
  readonly index: MonthIndex;
  readonly amended: AmendedTests;
  readonly library: Library;
  readonly ledger: CareLedgerOf;
  readonly care: Care;
  readonly operators: OperatorsState;
  readonly declares: boolean;
  readonly findings: Findings;
  readonly now: () => string;
}
