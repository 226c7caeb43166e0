import { Temporal } from "temporal-polyfill";
import { knownZone } from "./knownZone.ts";

const DAY_MS = 24 * 60 * 60_000;

function offsetMs(epochMs: number, timeZone: string): number {
  const instant = Temporal.Instant.fromEpochMilliseconds(epochMs);
  return instant.toZonedDateTimeISO(timeZone).offsetNanoseconds / 1e6;
}

/** No zone changes its clock twice within a day, so that a day with one offset at both ends has it throughout. */
function offsetsIn(zone: string): (epochMs: number) => number {
  let day = Number.NaN;
  let throughout: number | null = null;
  return (epochMs) => {
    const now = Math.floor(epochMs / DAY_MS);
    if (now !== day) {
      const [first, last] = [offsetMs(now * DAY_MS, zone), offsetMs((now + 1) * DAY_MS, zone)];
      throughout = first === last ? first : null;
      day = now;
    }
    return throughout ?? offsetMs(epochMs, zone);
  };
}

/** Of an offset like `+01:00`. */
const OFFSET_CHARACTERS = 6;

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
  const offsetAt = offsetsIn(zone);
  return (epochMs) => {
    const offset = offsetAt(epochMs);
    return new Date(epochMs + offset).toISOString().slice(0, 19) + offsetText(offset);
  };
}

/**
 * Rewrites moments as the clock of one zone shows them; the instant stays.
 *
 * @param timeZone an IANA name; where there is no zone of that name, moments stay as they are
 * @returns a function from a moment with offset to the same instant in that zone; what is no moment stays as it is
 */
export function inZone(timeZone: string): (at: string) => string {
  if (knownZone(timeZone, "") === "") return (at) => at;
  const moment = momentsIn(timeZone);
  return (at) => {
    const epochMs = Date.parse(at);
    if (Number.isNaN(epochMs)) return at;
    const there = moment(epochMs);
    return at.endsWith(there.slice(-OFFSET_CHARACTERS)) ? at : there;
  };
}
