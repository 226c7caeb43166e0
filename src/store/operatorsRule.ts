import type { SignOnRule } from "../record/roles.ts";
import { ruleTold } from "../record/signOnGaps.ts";
import type { Log } from "./log.ts";

/** Days of the log, the one with the last entry first, then from the newest back. */
async function* daysBack(log: Log): AsyncGenerator<string> {
  const written = log.written();
  if (written !== null) yield written.day;
  for (const month of log.months())
    for (const day of [...(await log.daysOf(month))].reverse()) if (day !== written?.day) yield day;
}

/**
 * Whether sign-on was required when the log was last written, from the log itself, which nobody can change unseen: the
 * last entry that tells. Nearly every entry does, so that this ends within a day or two however long the log.
 */
export async function ruleInLog(log: Log): Promise<SignOnRule> {
  for await (const day of daysBack(log)) {
    const found = await log.day(day);
    if (found.is !== "read") continue;
    for (const entry of found.content.entries.toReversed()) {
      const told = ruleTold(entry);
      if (told !== null) return told;
    }
  }
  return "none";
}
