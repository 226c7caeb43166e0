import type { LogEntry } from "../record/logEntry.ts";
import type { SignOnRule } from "../record/roles.ts";
import { ruleTold } from "../record/signOnGaps.ts";
import type { Log } from "./log.ts";

/** An entry that tells what the list of people was like from there on. */
export interface Listed {
  readonly sha256: string;
  readonly number: number;
  readonly day: string;
}

/** What the log says of its people: whether they sign on, and the seal of their list; null where none was kept. */
export interface PeopleInLog {
  readonly rule: SignOnRule;
  readonly listed: Listed | null;
}

/** Days of the log, the one with the last entry first, then from the newest back. */
async function* daysBack(log: Log): AsyncGenerator<string> {
  const written = log.written();
  if (written !== null) yield written.day;
  for (const month of log.months())
    for (const day of [...(await log.daysOf(month))].reverse()) if (day !== written?.day) yield day;
}

/** The list that an entry tells of; null for entries that tell of none. */
export const listedIn = (entry: LogEntry): Listed | null =>
  "listSha256" in entry && entry.listSha256 !== undefined
    ? { sha256: entry.listSha256, number: entry.number, day: entry.day }
    : null;

/**
 * Whether sign-on was required when the log was last written and what the list of people was then, from the log itself,
 * which nobody can change unseen. Nearly every entry tells the one and every coming and going the other, so that this ends
 * within a day or two however long the log. Where nobody need sign on the list is not looked for.
 */
export async function peopleInLog(log: Log): Promise<PeopleInLog> {
  let rule: SignOnRule | null = null;
  let listed: Listed | null = null;
  for await (const day of daysBack(log)) {
    const found = await log.day(day);
    for (const entry of found.is === "read" ? found.content.entries.toReversed() : []) {
      rule ??= ruleTold(entry);
      listed ??= listedIn(entry);
      if (rule === "none" || (rule !== null && listed !== null)) return { rule, listed };
    }
  }
  return { rule: rule ?? "none", listed };
}
