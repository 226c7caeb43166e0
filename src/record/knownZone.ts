import { Temporal } from "temporal-polyfill";

/** The zone of that name (IANA, "UTC" or an offset like "+01:00"), or the other one where there is none. */
export function knownZone(timeZone: string, otherwise: string): string {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(timeZone);
    return timeZone;
  } catch (fault) {
    if (!(fault instanceof RangeError)) throw fault;
    return otherwise;
  }
}
