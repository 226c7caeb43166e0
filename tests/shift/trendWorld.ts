import type { IndexRow } from "../../src/record/indexRow.ts";
import type { Product } from "../../src/record/product.ts";
import type { LineEvent } from "../../src/shift/lineState.ts";
import type { LimitsFrozen, TrendRows } from "../../src/shift/trend.ts";

/** The moment so many hours after midnight at the plant. */
export const hourAt = (hours: number): string => {
  const utc = new Date(Date.UTC(2026, 9, 31, 23) + hours * 3_600_000);
  return utc.toISOString().replace(/\.\d+Z$/, "+00:00");
};

/** The invented plant's filter sand with limits on two sieves and on two values. */
export const SAND: Product = {
  schema: "sievewright.product/1",
  code: "TH-0510",
  name: "filter sand (invented)",
  revision: 3,
  stackUm: [1000, 710, 500],
  envelope: [
    { apertureUm: 500, passingPct: { min: 3, max: 20 } },
    { apertureUm: 710, coarserPct: { max: 70 } },
  ],
  values: [
    { id: "percentileUm", passingPct: 50, min: 690, max: 790 },
    { id: "uniformityCoefficient", max: 2 },
  ],
  show: ["percentileUm@10", "percentileUm@50"],
};

/** One test an hour, called T0, T1, ...; the change says what is otherwise. */
export const rowAt = (i: number, change: Partial<IndexRow> = {}): IndexRow => ({
  number: i + 1,
  testId: `T${i}`,
  at: hourAt(i),
  day: hourAt(i).slice(0, 10),
  product: "TH-0510",
  revision: 3,
  lot: "4471-B",
  line: "Dryer 1",
  samplingPoint: "discharge",
  by: "KO",
  test: "valid",
  verdict: "pass",
  disposition: "release",
  lossPct: 0.1,
  values: { "percentileUm@50": 740, uniformityCoefficient: 1.8 },
  passingPct: { "1000": 80, "710": 45, "500": 12 },
  ...change,
});

/** Tests with these d50, one an hour. */
export const rowsOf = (d50Um: readonly number[]): readonly IndexRow[] =>
  d50Um.map((um, i) => rowAt(i, { values: { "percentileUm@50": um, uniformityCoefficient: 1.8 } }));

/** A value that scatters by 10 about 740, always the same: what the process does when nothing happens. */
export const STEADY = Array.from({ length: 40 }, (_, i) => 740 + 10 * Math.sin(i * 2.399));

export const adjusted = (hours: number, change: Partial<LineEvent> = {}): LineEvent => ({
  kind: "line adjusted",
  number: 900 + hours,
  at: hourAt(hours),
  day: hourAt(hours).slice(0, 10),
  station: "TH-DRY1",
  by: "SB",
  previous: "0".repeat(64),
  line: "Dryer 1",
  what: "deck",
  detail: "0.71 put in for 0.75",
  ...change,
});

export const frozen = (change: Partial<LimitsFrozen> = {}): LimitsFrozen => ({
  kind: "limits frozen",
  number: 990,
  at: hourAt(30),
  day: hourAt(30).slice(0, 10),
  station: "TH-DRY1",
  by: "SB",
  previous: "0".repeat(64),
  product: "TH-0510",
  line: "Dryer 1",
  on: "percentileUm@50",
  chart: "individuals",
  replicates: 1,
  centre: 700,
  sigma: 5,
  tests: 25,
  first: { testId: "T0", day: "2026-11-01", number: 1 },
  last: { testId: "T24", day: "2026-11-02", number: 25 },
  sinceAt: hourAt(0),
  leftOut: [],
  reason: "agreed with quality",
  ...change,
});

export const read = (rows: readonly IndexRow[], change: Partial<TrendRows> = {}): TrendRows => ({
  rows,
  events: [],
  frozen: [],
  ...change,
});
