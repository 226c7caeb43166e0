import type { Change } from "../../record/amendment.ts";
import type { Draft } from "../../record/draft.ts";
import type { TestHistory } from "../../record/versions.ts";

export interface RecordPlace extends TestHistory {
  readonly name: "record";
  readonly view: number;
  /** How many of the latest entries of the trail are scrolled out of sight. */
  readonly back?: number;
  /** Of the page of versions: the first line and the first version shown. */
  readonly from?: { readonly line: number; readonly version: number };
}

/** A recorded test being corrected: figures chosen and retyped, then why, a look at what follows, and who signs. */
export interface CorrectPlace {
  readonly name: "correct";
  readonly history: TestHistory;
  readonly step: "choose" | "reason" | "confirm" | "initials";
  /** Which figure the mark points at. */
  readonly at: number;
  readonly changes: readonly Change[];
  /** What is being typed: the figure in hand (null while none is), the reason, or initials. */
  readonly typed: string | null;
  /** A mass that can't be right either; a second Enter takes it all the same. */
  readonly doubt: { readonly grams: number; readonly text: string } | null;
  readonly reason: string;
  /** How many lines of the comparison are scrolled out of sight. */
  readonly from: number;
}

/** What takes no more than a reason and a signature: the standing of a recorded test, or the end of one in work. */
export type Reasoned =
  | { readonly act: "voided" | "reinstated" | "waived"; readonly history: TestHistory }
  | { readonly act: "ended"; readonly draft: Draft };

export interface ReasonPlace {
  readonly name: "reason";
  readonly what: Reasoned;
  readonly field: "reason" | "initials";
  readonly reason: string;
  readonly typed: string;
}
