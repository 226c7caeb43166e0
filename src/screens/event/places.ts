import type { LoggedEvent } from "../../record/indexRow.ts";
import type { TestRef } from "../../record/testRef.ts";
import type { TestHistory } from "../../record/versions.ts";
import type { Handover } from "../../shift/handover.ts";
import type { HoldClosed, HoldOpened } from "../../shift/holds.ts";

/** What a form of the shift is about. */
export type EventAbout =
  | { readonly is: "nothing" }
  | {
      readonly is: "lot";
      readonly product: string;
      readonly lot: string;
      readonly line: string;
      readonly of: TestRef | null;
    }
  | {
      readonly is: "hold";
      readonly hold: HoldOpened;
      /** What its tests say against the release of the lot; null: nothing. */
      readonly against: string | null;
    }
  | {
      readonly is: "handover";
      readonly shift: { readonly name: string; readonly began: string; readonly ends: string };
      readonly head: { readonly number: number; readonly seal: string };
      /** As it was handed over; its SHA-256 goes on record. */
      readonly page: string;
    }
  | { readonly is: "handed over"; readonly handover: { readonly day: string; readonly number: number } };

/** A form that ends in an entry of the shift: a note, a change of a line, a hold opened or closed, a handover. */
export interface EventPlace {
  readonly name: "event";
  readonly form: "note" | "line" | "hold" | "close" | "handover" | "taken";
  readonly about: EventAbout;
  readonly answers: readonly string[];
  readonly typed: string;
}

/** The page of a shift. */
export interface HandoverPlace {
  readonly name: "handover";
  readonly handover: Handover;
  /** The latest page that was handed over and that nobody has taken yet. */
  readonly untaken: Extract<LoggedEvent, { kind: "handover" }> | null;
}

/** All tests of one lot, and what they say together. */
export interface LotPlace {
  readonly name: "lot";
  readonly product: string;
  readonly lot: string;
  readonly line: string;
  readonly histories: readonly TestHistory[];
  /** The latest closing of a hold on it, as far back as it was looked for; absent or null: none. */
  readonly closed?: HoldClosed | null;
  readonly at: number;
}
