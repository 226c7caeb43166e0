import type { Station } from "../record/station.ts";

/** A station of the invented plant. Nothing in it is real, and it says so. */
export const DEMO_STATION: Station = {
  schema: "sievewright.station/1",
  station: "TH-DRY1",
  plant: "Tessel Hollow (invented)",
  timeZone: "Europe/Berlin",
  dayBegins: "06:00",
  shiftBegins: ["06:00", "14:00", "22:00"],
  checkWeights: [
    { weight: "W500", weightClass: "F1", nominalG: 500, toleranceG: 0.03 },
    { weight: "W50", weightClass: "F1", nominalG: 50, toleranceG: 0.02 },
  ],
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
