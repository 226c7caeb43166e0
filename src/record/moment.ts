import { Temporal } from "temporal-polyfill";
import { knownZone } from "./knownZone.ts";

const QUARTER_MS = 15 * 60_000;

/** A zone's clock changes fall on quarters of an hour, so one look-up serves a quarter. */
function offsetMs(epochMs: number, timeZone: string): number {
  const instant = Temporal.Instant.fromEpochMilliseconds(epochMs);
  return instant.toZonedDateTimeISO(timeZone).offsetNanoseconds / 1e6;
}

const two = (n: number) => String(n).padStart(2, "0");

function offsetText(ms: number): string {
  const minutes = Math.round(Math.abs(ms) / 60_000);
  return `${ms < 0 ? "-" : "+"}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

/**
 * Writes instants as the clock of one zone shows them, to the second, with the offset from UTC:
 * `2026-11-24T03:12:05+01:00`. The hour that a clock change repeats is told apart by its offset.
 *
 * @param timeZone an IANA name
 * @param otherwise the zone whose clock is read where there is no zone of that name
 * @returns a function from milliseconds since 1970 UTC to a moment
 */
export function momentsIn(timeZone: string, otherwise = "UTC"): (epochMs: number) => string {
  const zone = knownZone(timeZone, otherwise);
  let quarter = Number.NaN;
  let offset = 0;
  return (epochMs) => {
    const now = Math.floor(epochMs / QUARTER_MS);
    if (now !== quarter) {
      offset = offsetMs(epochMs, zone);
      quarter = now;
    }
    return new Date(epochMs + offset).toISOString().slice(0, 19) + offsetText(offset);
  };
}
