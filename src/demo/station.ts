import type { Station } from "../record/station.ts";

/** A station of the invented plant. Nothing in it is real, and it says so. */
export const DEMO_STATION: Station = {
  schema: "sievewright.station/1",
  station: "TH-DRY1",
  plant: "Tessel Hollow (invented)",
  timeZone: "Europe/Berlin",
  dayBegins: "06:00",
  shifts: [
    { name: "early", on: ["mon", "tue", "wed", "thu", "fri"], begins: "06:00", ends: "14:00" },
    { name: "late", on: ["mon", "tue", "wed", "thu", "fri"], begins: "14:00", ends: "22:00" },
    { name: "night", on: ["mon", "tue", "wed", "thu", "fri"], begins: "22:00", ends: "06:00" },
    { name: "weekend day", on: ["sat", "sun"], begins: "06:00", ends: "18:00" },
    { name: "weekend night", on: ["sat", "sun"], begins: "18:00", ends: "06:00" },
  ],
  samplingPlan: [
    {
      product: "TH-0510",
      line: "Dryer 1",
      everyHours: 4,
      after: ["changeover", "adjustment"],
      tightened: { lots: 2, everyHours: 2 },
    },
    { product: "TH-MAS", line: "Screen deck B", everyHours: 6, after: ["changeover", "adjustment"], graceMinutes: 30 },
    { product: "TH-BAR", line: "Mill 2", everyHours: 8 },
    { product: "TH-PG3", line: "Granulator", everyLot: true },
  ],
  checkWeights: [
    { weight: "W500", weightClass: "F1", nominalG: 500, toleranceG: 0.03 },
    { weight: "W50", weightClass: "F1", nominalG: 50, toleranceG: 0.02 },
  ],
  balances: [{ id: "B1", capacityG: 3100, readabilityG: 0.01, repeatabilityG: 0.01, linearityG: 0.03, driftG: 0.02 }],
  lines: ["Dryer 1", "Screen deck B", "Mill 2", "Granulator"],
  samplingPoints: ["discharge", "belt 4", "below mill", "cooler exit"],
  operators: [
    { initials: "KO", name: "K. Orr" },
    { initials: "ML", name: "M. Lind" },
    { initials: "SB", name: "S. Baro" },
  ],
  demo: true,
};
