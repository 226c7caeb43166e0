import { roundHalfAway } from "../../grading/rounding.ts";
import type { Counts } from "./counts.ts";

/** When a sieve is to be inspected: whichever of these comes first. */
export interface Schedule {
  readonly days?: number | undefined;
  readonly tests?: number | undefined;
  readonly sievedMin?: number | undefined;
  readonly passedKg?: number | undefined;
}

/** Six months, as many road laboratories keep it: recalled, and for the plant to decide. */
export const USUAL_SCHEDULE: Schedule = { days: 183 };

/** Due is said before it is overdue: from this share of the interval on. */
const SOON = 0.9;
const DAY_MS = 86_400_000;

/** How much of one interval is used up. */
export interface Used {
  readonly by: keyof Schedule;
  readonly used: number;
  readonly limit: number;
}

export interface Due {
  readonly state: "not due" | "due" | "overdue";
  /** The interval that is nearest to its end; null where none is set. */
  readonly first: Used | null;
  /** The day of the next inspection by date; null without an interval in days, or without a day to count from. */
  readonly onDay: string | null;
  readonly text: string;
}

const SPENT: Readonly<Record<keyof Schedule, (used: string, limit: number) => string>> = {
  days: (used, limit) => `${used} of ${limit} days`,
  tests: (used, limit) => `${used} of ${limit} tests`,
  sievedMin: (used, limit) => `${used} of ${limit} min of sieving`,
  passedKg: (used, limit) => `${used} of ${limit} kg passed`,
};

const SPENT_SINCE: Readonly<Record<keyof Schedule, (used: string, limit: number, since: string) => string>> = {
  days: (used, limit, since) => `${used} of ${limit} days since ${since}`,
  tests: (used, limit, since) => `${used} of ${limit} tests since ${since}`,
  sievedMin: (used, limit, since) => `${used} of ${limit} min of sieving since ${since}`,
  passedKg: (used, limit, since) => `${used} of ${limit} kg passed since ${since}`,
};

const daysBetween = (from: string, to: string): number => Math.round((Date.parse(to) - Date.parse(from)) / DAY_MS);

function usedOf(counts: Counts, schedule: Schedule, today: string): Used[] {
  const used: Record<keyof Schedule, number | null> = {
    days: counts.since === null ? null : daysBetween(counts.since, today),
    tests: counts.tests,
    sievedMin: counts.sievedMin,
    passedKg: counts.passedKg,
  };
  return (["days", "tests", "sievedMin", "passedKg"] as const).flatMap((by) => {
    const [limit, spent] = [schedule[by], used[by]];
    return limit === undefined || spent === null ? [] : [{ by, used: spent, limit }];
  });
}

const fullness = ({ used, limit }: Used): number => (limit > 0 ? used / limit : Number.POSITIVE_INFINITY);

/** The day so many days after another, both as ISO dates. */
const dayAfter = (day: string, days: number): string =>
  new Date(Date.parse(day) + days * DAY_MS).toISOString().slice(0, 10);

/**
 * Is an inspection due? By date or by count, whichever comes first: overdue once an interval is exceeded, due from
 * nine tenths of it on. A sieve that was never inspected and has no day to count from is overdue by date.
 *
 * @param today ISO date of the station
 * @source intervals are the plant's own; common practice, no source
 * @example dueOf({ tests: 95, sievedMin: 0, passedKg: 0, untimed: 0, since: "2026-11-01" }, { tests: 100 }, "2026-11-24").state // => "due"
 */
export function dueOf(counts: Counts, schedule: Schedule, today: string): Due {
  if (schedule.days !== undefined && counts.since === null)
    return { state: "overdue", first: null, onDay: null, text: "no inspection is recorded, nor a day of first use" };
  const first = usedOf(counts, schedule, today).toSorted((a, b) => fullness(b) - fullness(a))[0] ?? null;
  const onDay = schedule.days === undefined || counts.since === null ? null : dayAfter(counts.since, schedule.days);
  if (first === null) return { state: "not due", first, onDay, text: "no interval is set" };
  const spent = fullness(first);
  const state = spent > 1 ? "overdue" : spent >= SOON ? "due" : "not due";
  const [used, { by, limit }] = [roundHalfAway(first.used, 0), first];
  const text = counts.since === null ? SPENT[by](used, limit) : SPENT_SINCE[by](used, limit, counts.since);
  return { state, first, onDay, text };
}
