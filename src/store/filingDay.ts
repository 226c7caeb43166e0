import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { moment } from "../record/fields.ts";
import type { Station } from "../record/station.ts";
import { type Cabinet, report } from "./cabinet.ts";

type DaysOf = typeof import("../record/productionDay.ts").productionDaysOf;
let daysOf: DaysOf | undefined;
const DAYS = new WeakMap<Station, ReturnType<DaysOf>>();

/** The production day that an entry is filed under; refused for a time that is none. */
export async function filingDay(at: string, station: Station, cabinet: Cabinet): Promise<Outcome<string>> {
  if (!moment.safeParse(at).success) return refused(`the entry can't be recorded: "${at}" is not a time`);
  // Loading the time zones takes a quarter of a whole start, and a start needs none.
  daysOf ??= (await import("../record/productionDay.ts")).productionDaysOf;
  const days = DAYS.get(station) ?? daysOf(station);
  DAYS.set(station, days);
  const day = days(at);
  if (day.ok) return day;
  report(
    cabinet,
    `${day.reason}. Correct timeZone in station.json; until then the computer's own time decides the day`,
  );
  return accepted(writtenDay(at, station.dayBegins));
}

/** The production day by the local time that a moment is written with. */
function writtenDay(at: string, dayBegins: string): string {
  const date = at.slice(0, 10);
  if (at.slice(11, 16) >= dayBegins) return date;
  return new Date(Date.parse(date) - 86_400_000).toISOString().slice(0, 10);
}
