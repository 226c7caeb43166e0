import type { Station } from "../record/station.ts";

/** A station of the invented plant. Nothing in it is real, and it says so. */
export const DEMO_STATION: Station = {
  schema: "sievewright.station/1",
  station: "TH-DRY1",
  plant: "Tessel Hollow (invented)",
  timeZone: "Europe/Berlin",
  dayBegins: "06:00",
  balances: [{ id: "B1", capacityG: 3100, readabilityG: 0.01 }],
  lines: ["Dryer 1", "Screen deck B", "Mill 2", "Granulator"],
  samplingPoints: ["discharge", "belt 4", "below mill", "cooler exit"],
  operators: [
    { initials: "KO", name: "K. Orr" },
    { initials: "ML", name: "M. Lind" },
    { initials: "SB", name: "S. Baro" },
  ],
  demo: true,
};
