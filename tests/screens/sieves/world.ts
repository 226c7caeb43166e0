import type { Care, ReferenceMaterial } from "../../../src/record/care.ts";
import type { LogEntry } from "../../../src/record/logEntry.ts";
import type { RegisterItem } from "../../../src/record/register.ts";
import type { App, Effect } from "../../../src/screens/place.ts";
import { careEntry, knownOf, setOf, sieveOf } from "../../care/knownWorld.ts";
import { testRecord } from "../../store/records.ts";
import { anApp, Stage } from "../stage.ts";

export const SERIALS = ["S-1400-1", "S-1000-1", "S-0710-1", "S-0500-1"];
export const S710 = "S-0710-1";
const APERTURES = [1400, 1000, 710, 500];

export const MATERIAL: ReferenceMaterial = {
  schema: "sievewright.referenceMaterial/1",
  code: "RM-SAND",
  name: "reference sand (invented)",
  certificate: { day: "2026-02-01", laboratory: "Tessel Hollow (invented)" },
  points: [
    { apertureUm: 2000, passingPct: 99, expandedPct: 0.5 },
    { apertureUm: 355, passingPct: 2, expandedPct: 0.5 },
  ],
};

/** Invented: a set of four, a spare, a balance whose calibration falls due, an overdue weight, a material. */
export const ITEMS: readonly RegisterItem[] = [
  ...SERIALS.map((serial, i) =>
    sieveOf(serial, APERTURES[i] ?? 0, { location: "rack 2", inspection: { days: 183, tests: 40 } }),
  ),
  sieveOf("S-0355-9", 355, { state: "retired", stateReason: "torn", stateSince: "2026-10-20" }),
  setOf("SET-A", ...SERIALS),
  {
    schema: "sievewright.balance/1",
    id: "B1",
    capacityG: 3100,
    readabilityG: 0.01,
    calibration: { day: "2026-01-10", laboratory: "Tessel Hollow (invented)", due: "2026-12-10" },
  },
  {
    schema: "sievewright.checkWeight/1",
    weight: "W500",
    nominalG: 500,
    weightClass: "F1",
    certificate: { day: "2024-01-10", laboratory: "Tessel Hollow (invented)", due: "2026-10-20" },
  },
  MATERIAL,
];

/** Tests with the set, hours apart; the 710 um sieve gains so much from the given test on. */
export function tests(
  count: number,
  rise: { readonly from: number; readonly eachG: number } | null = null,
): LogEntry[] {
  return Array.from({ length: count }, (_, i): LogEntry => {
    const at = new Date(Date.UTC(2026, 10, 10, 6 + 3 * i)).toISOString().replace("Z", "+00:00");
    const test = testRecord(`T-${i}`, at);
    const above = rise === null ? 0 : rise.eachG * Math.max(0, i - rise.from);
    const weighings = test.weighings.map((w, row) => {
      const serial = SERIALS[row];
      const noise = ((i * 7 + row * 3) % 3) / 100 - 0.01;
      const emptyG = Number((400 + row + noise + (serial === S710 ? above : 0)).toFixed(2));
      return { ...w, emptyG, fullG: emptyG + 60, ...(serial === undefined ? {} : { serial }) };
    });
    const sealed = { number: i + 1, at, day: at.slice(0, 10), station: "TH-DRY1", by: "KO", previous: "0".repeat(64) };
    return { kind: "test", ...sealed, test: { ...test, set: "SET-A", weighings } };
  });
}

export const done = (care: Care, at = "2026-11-23T09:00:00+01:00", number = 900): LogEntry =>
  careEntry(number, at, care);

export const known = (entries: readonly LogEntry[] = [], items = ITEMS) => knownOf(items, entries);

/** Somebody at the list of sieves, of which this is known. */
export function atSieves(care = known(), change: Partial<App> = {}): Stage {
  return new Stage(anApp({ care, ...change })).types("s");
}

export const atSieve = (care = known(), change: Partial<App> = {}, serial = S710): Stage =>
  atSieves(care, change).types(serial).presses("enter");

type Recorded = Extract<Effect, { do: "recordCare" }>["entry"];

/** What was asked to be recorded. */
export const recorded = (stage: Stage): readonly Recorded[] =>
  stage.effects.flatMap((effect) => (effect.do === "recordCare" ? [effect.entry] : []));
