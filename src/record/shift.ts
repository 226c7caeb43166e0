import { Temporal } from "temporal-polyfill";
import { knownZone } from "./knownZone.ts";

/** The clock of a station: its zone, when its production day and its shifts begin, as local times. */
export interface ShiftClock {
  readonly timeZone: string;
  readonly dayBegins: string;
  readonly shiftBegins?: readonly string[] | undefined;
}

const moment = (at: Temporal.ZonedDateTime): string => at.toString({ timeZoneName: "never", smallestUnit: "second" });

const OFFSET = /[+-]\d{2}:\d{2}$/;

/**
 * The latest of these local times that is not after a moment; a time that a clock change skips is taken an hour later.
 * In a zone that nobody knows the clock is that of the moment's own offset.
 */
function latest(at: string, times: readonly string[], named: string): string {
  const timeZone = knownZone(named, OFFSET.exec(at)?.[0] ?? "UTC");
  const instant = Temporal.Instant.from(at);
  const today = instant.toZonedDateTimeISO(timeZone).toPlainDate();
  const beginnings = [today.subtract({ days: 1 }), today]
    .flatMap((date) => times.map((plainTime) => date.toZonedDateTime({ timeZone, plainTime })))
    .filter((begins) => Temporal.Instant.compare(begins.toInstant(), instant) <= 0)
    .sort((a, b) => Temporal.ZonedDateTime.compare(a, b));
  const last = beginnings.at(-1);
  return last ? moment(last) : at;
}

/** When the production day of a moment began, as a moment of the station's clock. */
export const dayBegan = (at: string, clock: ShiftClock): string => latest(at, [clock.dayBegins], clock.timeZone);

/** When the shift of a moment began; a station that names no shifts has one a day. */
export const shiftBegan = (at: string, clock: ShiftClock): string =>
  latest(at, clock.shiftBegins ?? [clock.dayBegins], clock.timeZone);
