/** A month or a day as they are written: 2026-11, 2026-11-24. */
const DATE = /^\d{4}-(0[1-9]|1[0-2])(-\d{2})?$/;

const datesOf = (filter: string): readonly string[] => filter.split(/\s+/).filter((word) => DATE.test(word));

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
