import { Temporal } from "temporal-polyfill";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";

interface DayClock {
  readonly timeZone: string;
  readonly dayBegins: string;
}

/** A production day and the instants between which it lies, the second one excluded. */
interface Span {
  readonly day: string;
  readonly fromMs: number;
  readonly untilMs: number;
}

function spanOf(at: string, { timeZone, dayBegins }: DayClock): Span {
  const begins = (date: Temporal.PlainDate): number =>
    date.toZonedDateTime({ timeZone, plainTime: dayBegins }).epochMilliseconds;
  const instant = Temporal.Instant.from(at);
  const date = instant.toZonedDateTimeISO(timeZone).toPlainDate();
  const first = instant.epochMilliseconds >= begins(date) ? date : date.subtract({ days: 1 });
  return { day: first.toString(), fromMs: begins(first), untilMs: begins(first.add({ days: 1 })) };
}

/**
 * A station's production days: a function from a moment to the day that it belongs to, as "2026-11-24". The day begins at
 * `dayBegins` local time of the station's zone; an earlier hour belongs to the day before. Compared as instants, so that
 * the hour that a clock change repeats never leads back into a day already left; a beginning that the change skips is
 * taken one hour later. The offset that the moment is written with does not matter. Refused when the zone is unknown.
 * The day found last is kept, since most moments lie in the same one.
 */
export function productionDaysOf(clock: DayClock): (at: string) => Outcome<string> {
  let kept: Span | null = null;
  return (at) => {
    const atMs = Date.parse(at);
    if (kept !== null && atMs >= kept.fromMs && atMs < kept.untilMs) return accepted(kept.day);
    try {
      kept = spanOf(at, clock);
      return accepted(kept.day);
    } catch (fault) {
      if (!(fault instanceof RangeError)) throw fault;
      return refused(`no production day for ${at} in time zone ${clock.timeZone}: ${fault.message}`);
    }
  };
}

/** The production day that a moment belongs to; see `productionDaysOf`. */
export const productionDay = (at: string, clock: DayClock): Outcome<string> => productionDaysOf(clock)(at);
