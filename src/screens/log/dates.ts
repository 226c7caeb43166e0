import { speaking } from "../../words/speaking.ts";

/** A month or a day as they are written: 2026-11, 2026-11-24. */
const DATE = /^\d{4}-(0[1-9]|1[0-2])(-\d{2})?$/;
/** 11.2026, 24.11.2026, 24/11/2026, and the month in front. */
const OTHERWISE = /^(?:(\d{2})[./])?(\d{2})[./](\d{4})$/;

/** A date as it stands in records, whichever order its writer is used to. */
function asRecorded(word: string): string {
  const [, first, second = "", year = ""] = OTHERWISE.exec(word) ?? [];
  if (year === "") return word;
  if (first === undefined) return `${year}-${second}`;
  return speaking().dates === "month first" ? `${year}-${first}-${second}` : `${year}-${second}-${first}`;
}

const datesOf = (filter: string): readonly string[] =>
  filter
    .split(/\s+/)
    .map(asRecorded)
    .filter((word) => DATE.test(word));

export const isDated = (filter: string): boolean => datesOf(filter).length > 0;

const monthBefore = (month: string): string => {
  const [year = 0, number = 1] = month.split("-").map(Number);
  return number === 1 ? `${year - 1}-12` : `${year}-${String(number - 1).padStart(2, "0")}`;
};

/** Whether a month's file can hold tests of a date that is looked for: a night after its last day is filed under that. */
export const datesIn = (filter: string, month: string): boolean =>
  datesOf(filter)
    .map((date) => date.slice(0, 7))
    .some((of) => of === month || monthBefore(of) === month);
