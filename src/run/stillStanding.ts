import type { ProgramRun } from "../record/program.ts";
import type { CheckMinute, TrailItem } from "../record/test.ts";
import { ranFrom } from "./ranWords.ts";

/**
 * The check minute of the portion in hand, as entries that stand tell it: when it began and what each sieve weighed full
 * then, coarsest first; null when none was begun since the sieves were emptied last.
 */
export function checkMinuteIn(entries: readonly TrailItem[]): CheckMinute | null {
  const begun = entries.findLastIndex(({ field }) => field === "checkMinute" || field === "portion");
  const minute = entries[begun];
  if (minute?.field !== "checkMinute") return null;
  const fullG = new Map<number, number>();
  for (const { field, apertureUm, to } of entries.slice(0, begun)) {
    if (field === "fullG" && typeof to === "number") fullG.set(apertureUm ?? 0, to);
  }
  const before = [...fullG].map(([apertureUm, grams]) => ({ apertureUm, fullG: grams }));
  return { at: minute.at, before: before.toSorted((a, b) => b.apertureUm - a.apertureUm) };
}

/** What ran otherwise, as entries that stand tell it; undefined when nothing did. */
export function ranIn(entries: readonly TrailItem[]): ProgramRun | undefined {
  const notes = entries.filter(({ field }) => field === "ran").map(({ to }) => ranFrom(`${to}`));
  return notes.length === 0 ? undefined : Object.assign({}, ...notes);
}
