import { hostname } from "node:os";
import type { Station } from "../record/station.ts";

/**
 * The station that is made where there is none yet: named for this computer, in its time zone, with one balance that
 * reads 0.01 g, until somebody edits station.json.
 */
export function newStation(): Station {
  return {
    schema: "sievewright.station/1",
    station: codeFrom(hostname()),
    plant: "",
    timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    dayBegins: "06:00",
    balances: [{ id: "B1", capacityG: 3000, readabilityG: 0.01 }],
    lines: [],
    samplingPoints: [],
    operators: [],
  };
}

const codeFrom = (name: string): string =>
  name
    .replace(/[^A-Za-z0-9_-]+/g, "-")
    .replace(/^[^A-Za-z0-9]+/, "")
    .slice(0, 40) || "station";
