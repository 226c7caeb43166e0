import { Temporal } from "temporal-polyfill";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";

/**
 * The production day that a moment belongs to, as "2026-11-24". The day begins at `dayBegins` local time of the
 * station's zone; an earlier hour belongs to the day before. Compared as instants, so that the hour that a clock change
 * repeats never leads back into a day already left; a beginning that the change skips is taken one hour later.
 * The offset that the moment is written with does not matter. Refused when the zone is unknown.
 */
export function productionDay(at: string, clock: { timeZone: string; dayBegins: string }): Outcome<string> {
  try {
    const instant = Temporal.Instant.from(at);
    const date = instant.toZonedDateTimeISO(clock.timeZone).toPlainDate();
    const begins = date.toZonedDateTime({ timeZone: clock.timeZone, plainTime: clock.dayBegins });
    const begun = Temporal.Instant.compare(instant, begins.toInstant()) >= 0;
    return accepted((begun ? date : date.subtract({ days: 1 })).toString());
  } catch (fault) {
    if (!(fault instanceof RangeError)) throw fault;
    return refused(`no production day for ${at} in time zone ${clock.timeZone}: ${fault.message}`);
  }
}
