import type { LogEntry } from "./logEntry.ts";
import { actOf } from "./permissions.ts";
import type { SignOnRule } from "./roles.ts";

/** An entry that somebody made without a PIN although the station had declared that it takes one. */
export interface SignOnGap {
  readonly number: number;
  readonly day: string;
  readonly kind: LogEntry["kind"];
  readonly by: string;
}

/**
 * What an entry tells of the rule in force when it was made: a declaration says it, whoever did something shows it by
 * the PIN given or not; null for what the program notes of itself, for comings and goings, and for the first of all
 * administrators and a recovery, which no PIN can stand behind.
 */
export function ruleTold(entry: LogEntry): SignOnRule | null {
  if (entry.kind === "station declared") return entry.signOn;
  if (actOf(entry) === null) return null;
  if (entry.signedOn === true) return "required";
  return entry.kind === "operator" ? null : "none";
}

const isGap = (entry: LogEntry, rule: SignOnRule): boolean =>
  rule === "required" && actOf(entry) !== null && entry.signedOn !== true;

/**
 * Entries made without sign-on after the station declared that it takes one, in the order given, which is that of the log;
 * a recovery is one of them, since its code stands in for the PIN. `rule` is what was in force before the first, so that
 * a long log can be walked a day at a time with the rule that the day before ended with.
 */
export function signOnGaps(
  entries: Iterable<LogEntry>,
  rule: SignOnRule = "none",
): { readonly gaps: readonly SignOnGap[]; readonly rule: SignOnRule } {
  const gaps: SignOnGap[] = [];
  let inForce = rule;
  for (const entry of entries) {
    const { number, day, kind, by } = entry;
    if (isGap(entry, inForce)) gaps.push({ number, day, kind, by });
    if (entry.kind === "station declared") inForce = entry.signOn;
  }
  return { gaps, rule: inForce };
}
