import type { MonthWords } from "../../record/monthWords.ts";
import { dayText } from "../../words/figures.ts";
import { rememberedAsSpoken } from "./rememberedAsSpoken.ts";
import { statesText } from "./states.ts";

/** A night after the last day of a month is filed under that day, and dated with the first of the next. */
function daysOf(month: string): readonly string[] {
  const [year = 0, number = 1] = month.split("-").map(Number);
  const next = number === 12 ? `${year + 1}-01` : `${year}-${String(number + 1).padStart(2, "0")}`;
  const days = [...Array.from({ length: 31 }, (_, i) => `${month}-${String(i + 1).padStart(2, "0")}`), `${next}-01`];
  return [...days, ...days.map(dayText)];
}

/** The words of a month in one text, put together once: they are asked for with every key. */
const inOneText = rememberedAsSpoken(({ words, states }: MonthWords) => ({
  words: words.join(" ").toLowerCase(),
  states: [...new Set(states.flatMap((state) => statesText(state).split(/\s+/)))],
}));

/**
 * Whether a month can hold a test that matches a filter: each word of the filter must be somewhere in the month. True where
 * nothing is known of the month.
 */
export function mayHold(filter: string, month: string, known: MonthWords | undefined): boolean {
  if (known === undefined) return true;
  const { words, states } = inOneText(known);
  const days = daysOf(month);
  return filter
    .toLowerCase()
    .split(/\s+/)
    .every(
      (word) =>
        words.includes(word) ||
        states.some((state) => state.startsWith(word)) ||
        days.some((day) => day.includes(word)),
    );
}
