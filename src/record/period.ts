import { z } from "zod";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { quoted } from "../entry/quoted.ts";
import { day as dayField, moment } from "./fields.ts";
import type { LogEntry } from "./logEntry.ts";

const DAY_MS = 24 * 60 * 60 * 1000;
/** A production day can begin at any hour and a zone be 14 hours off: two days cover both. */
const SLACK_MS = 2 * DAY_MS;
const dayAt = (epochMs: number): string => new Date(epochMs).toISOString().slice(0, 10);

type Bound = { readonly day: string } | { readonly atMs: number } | null;

/** A stretch of the log, both ends included; an end that is null is open. */
export interface Period {
  readonly since: Bound;
  readonly until: Bound;
}

/**
 * The stretch between two ends, each a production day (2026-11-24) or a moment with its offset.
 *
 * @returns the period, or which end can't be read
 */
export function periodOf(since: string | undefined, until: string | undefined): Outcome<Period> {
  const [from, to] = [boundOf(since), boundOf(until)];
  if (from === undefined) return refused(`since ${quoted(since ?? "")} ${UNREADABLE}`);
  if (to === undefined) return refused(`until ${quoted(until ?? "")} ${UNREADABLE}`);
  return accepted({ since: from, until: to });
}

const UNREADABLE = "is neither a day like 2026-11-24 nor a time with its offset like 2026-11-24T03:12:05+01:00";

function boundOf(text: string | undefined): Bound | undefined {
  if (text === undefined) return null;
  if (dayField.safeParse(text).success) return { day: text };
  return z.safeParse(moment, text).success ? { atMs: Date.parse(text) } : undefined;
}

/** Whether the file of a production day can hold entries of the period. */
export function dayMayHold({ since, until }: Period, day: string): boolean {
  const first = since === null ? "" : "day" in since ? since.day : dayAt(since.atMs - SLACK_MS);
  const last = until === null ? "9999-12-31" : "day" in until ? until.day : dayAt(until.atMs + SLACK_MS);
  return day >= first && day <= last;
}

/** Whether an entry lies in the period: by its production day, or by its moment, as the end was given. */
export function holds({ since, until }: Period, entry: Pick<LogEntry, "at" | "day">): boolean {
  const notBefore = since === null || ("day" in since ? entry.day >= since.day : Date.parse(entry.at) >= since.atMs);
  const notAfter = until === null || ("day" in until ? entry.day <= until.day : Date.parse(entry.at) <= until.atMs);
  return notBefore && notAfter;
}
