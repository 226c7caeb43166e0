// The invented plant of the demo world, as records to store.
import type { Draft } from "../../src/record/draft.ts";
import type { NewEntry } from "../../src/record/logEntry.ts";
import type { Product } from "../../src/record/product.ts";
import type { Station } from "../../src/record/station.ts";
import type { TestRecord } from "../../src/record/test.ts";

export { indexRowOf } from "../../src/store/indexRowOf.ts";

export const station: Station = {
  schema: "sievewright.station/1",
  station: "TH-DRY1",
  plant: "Tessel Hollow (invented)",
  timeZone: "Europe/Berlin",
  dayBegins: "06:00",
  balances: [{ id: "B1", capacityG: 3200, readabilityG: 0.01 }],
  lines: ["Dryer 1", "Screen deck B"],
  samplingPoints: ["chute"],
  operators: [{ initials: "KO", name: "K. Orr" }],
  demo: true,
};

export const product: Product = {
  schema: "sievewright.product/1",
  code: "TH-0510",
  name: "filter sand 0.5-1.0",
  revision: 3,
  stackUm: [1400, 1000, 710, 500],
};

/** A test in progress with so many sieves weighed full. */
export function draft(testId: string, weighed = 0, startedAt = "2026-11-24T08:12:00+01:00"): Draft {
  const apertures = [...product.stackUm, 0];
  return {
    schema: "sievewright.draft/1",
    stage: "weigh full",
    testId,
    station: "TH-DRY1",
    startedAt,
    product,
    lot: "4471-B",
    line: "Dryer 1",
    samplingPoint: "chute",
    chargeG: 300.2,
    balance: { id: "B1", capacityG: 3200, readabilityG: 0.01 },
    program: null,
    weighings: apertures.map((apertureUm, i) => ({
      apertureUm,
      emptyG: 400 + i,
      fullG: i < weighed ? 460 + i : null,
    })),
    shaking: { plannedS: 600, startedAt: null, endedAt: null, skipped: null },
    remark: "",
    disposition: null,
    trail: [],
  };
}

export function testRecord(
  testId: string,
  startedAt = "2026-11-24T08:12:00+01:00",
  finishedAt = startedAt,
): TestRecord {
  const { schema: _, stage: __, ...fields } = draft(testId, 5, startedAt);
  const signed = { program: "0.1.0", test: "valid", product: "not judged", lossPct: 0.1 } as const;
  return { ...fields, disposition: "release", finishedAt, by: "KO", signed };
}

export const testEntry = (testId: string, at = "2026-11-24T08:31:00+01:00"): NewEntry => ({
  kind: "test",
  at,
  by: "KO",
  test: testRecord(testId, at),
});

export const note = (text: string, at = "2026-11-24T09:00:00+01:00"): NewEntry => ({
  kind: "note",
  at,
  by: "KO",
  text,
});

export const now = () => "2026-11-24T08:00:00+01:00";

/** A draft as it is towards the end of a test: a trail behind it. */
export const busyDraft = (testId: string, trail: number): Draft => ({
  ...draft(testId, 5),
  trail: Array.from({ length: trail }, (_, i) => ({
    at: "2026-11-24T08:20:00+01:00",
    field: "fullG" as const,
    apertureUm: 500,
    from: null,
    to: 455.2 + i / 100,
  })),
});
