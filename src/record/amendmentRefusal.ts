import { type Outcome, refused } from "../entry/outcome.ts";
import { AMENDMENT_KINDS, type Change } from "./amendment.ts";
import type { Amendment } from "./logEntry.ts";
import type { TestRecord } from "./test.ts";
import { currentTest, standingOf, type TestHistory, withChanges } from "./versions.ts";

type Without<T> = T extends Amendment
  ? Omit<T, "number" | "at" | "day" | "station" | "by" | "signedOn" | "previous">
  : never;

/** What a later entry says of a recorded test, before it is numbered and signed. */
export type Amending = Without<Amendment>;

export const isAmendment = <T extends { readonly kind: string }>(
  entry: T,
): entry is Extract<T, { kind: Amendment["kind"] }> => (AMENDMENT_KINDS as readonly string[]).includes(entry.kind);

/** The test with changes that change something: each must find what it says stood there. */
export function correctedTest(history: TestHistory, changes: readonly Change[]): Outcome<TestRecord> {
  const fields = changes.map((change) => `${change.field} ${"apertureUm" in change ? change.apertureUm : ""}`);
  if (new Set(fields).size < fields.length) return refused("the correction changes the same figure twice");
  if (changes.length === 0) return refused("nothing is corrected yet");
  const idle = changes.find((change) => change.from === change.to);
  if (idle !== undefined) return refused(`the correction of ${idle.field} changes nothing: ${idle.to} stands there`);
  return withChanges(currentTest(history), changes);
}

/**
 * Why a later entry about a test can't be recorded as the test stands today, in words; null when it can. A test is voided
 * once, reinstated when it is void, waived once and only when it is invalid and not void.
 */
export function amendmentRefusal(history: TestHistory, amending: Amending): string | null {
  const { voided, waived } = standingOf(history);
  const { number } = history.entry;
  switch (amending.kind) {
    case "correction": {
      const corrected = correctedTest(history, amending.changes);
      return corrected.ok ? null : corrected.reason;
    }
    case "voided":
      return voided ? `test no. ${number} is void already` : null;
    case "reinstated":
      return voided ? null : `test no. ${number} is not void: there is nothing to reinstate`;
    case "waived":
      if (voided) return `test no. ${number} is void: reinstate it first`;
      if (waived) return `test no. ${number} is waived already`;
      return currentTest(history).signed.test === "invalid"
        ? null
        : `test no. ${number} is not invalid: nothing to waive`;
  }
}
