import { describe, expect, test } from "vitest";
import type { NewEntry } from "../../src/record/logEntry.ts";
import type { Store } from "../../src/store/store.ts";
import { ANY_TIME, linesOf, MOST_MONTHS, readTrend } from "../../src/store/trendReading.ts";
import { must, opened } from "./opened.ts";
import { testEntry, testRecord } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

const momentOf = (month: string, i: number): string => {
  const [day, hour] = [1 + Math.floor(i / 4), 8 + 3 * (i % 4)];
  return `${month}-${String(day).padStart(2, "0")}T${String(hour).padStart(2, "0")}:00:00+01:00`;
};

const testOn = (line: string, month: string, i: number): NewEntry => {
  const at = momentOf(month, i);
  return { kind: "test", at, by: "KO", test: { ...testRecord(`${line.slice(0, 1)}-${month}-${i}`, at), line } };
};

const adjusted = (month: string, i: number, line = "Dryer 1"): NewEntry => ({
  kind: "line adjusted",
  at: momentOf(month, i),
  by: "KO",
  line,
  what: "deck",
  detail: `in ${month}`,
});

const frozenIn = (month: string): NewEntry => ({
  kind: "limits frozen",
  at: momentOf(month, 20),
  by: "SB",
  product: "TH-0510",
  line: "Dryer 1",
  on: "percentileUm@50",
  chart: "individuals",
  replicates: 1,
  centre: 700,
  sigma: 5,
  tests: 10,
  first: { testId: `D-${month}-0`, day: `${month}-01`, number: 1 },
  last: { testId: `D-${month}-9`, day: `${month}-03`, number: 10 },
  sinceAt: momentOf(month, 12),
  leftOut: [],
  reason: "agreed",
});

const MONTHS = ["2026-06", "2026-07", "2026-08", "2026-09", "2026-10", "2026-11"];

async function filled(more: readonly NewEntry[] = []): Promise<Store> {
  const store = await opened(await temporaryFolder());
  const tests = MONTHS.flatMap((month) => Array.from({ length: 10 }, (_, i) => testOn("Dryer 1", month, i)));
  const all = [...tests, ...more].toSorted((a, b) => a.at.localeCompare(b.at));
  must(await store.recordAll(all));
  return store;
}

/** The store, and which months' rows are asked of it. */
function watched(store: Store) {
  const rows: string[] = [];
  const events: string[] = [];
  const noting =
    <T>(noted: string[], read: (month: string) => T) =>
    (month: string): T => {
      noted.push(month);
      return read(month);
    };
  const watching: Store = new Proxy(store, {
    get: (target, name) => {
      if (name === "indexRows") return noting(rows, (month) => target.indexRows(month));
      if (name === "events") return noting(events, (month) => target.events(month));
      const found: unknown = Reflect.get(target, name);
      return typeof found === "function" ? found.bind(target) : found;
    },
  });
  return { store: watching, rows, events };
}

const last = (tests: number) => ({ tests, period: ANY_TIME });
const read = (store: Store, tests: number) => readTrend(store, "TH-0510", "Dryer 1", last(tests));

describe("reading a trend", () => {
  test("reads whole months from the newest back until there are enough tests, and no more", async () => {
    const { store, rows } = watched(await filled());
    const found = await read(store, 15);
    expect(rows).toEqual(["2026-11", "2026-10"]);
    expect(found.rows).toHaveLength(20);
    expect(found.rows.map(({ at }) => at)).toEqual(found.rows.map(({ at }) => at).toSorted());
    expect(found.older).toBe(true);
  });

  test("counts only tests that count", async () => {
    const invalid = (i: number): NewEntry => {
      const entry = testOn("Dryer 1", "2026-11", 12 + i);
      if (entry.kind !== "test") throw new Error("no test");
      return {
        ...entry,
        test: { ...entry.test, disposition: "resample", signed: { ...entry.test.signed, test: "invalid" } },
      };
    };
    const { store, rows } = watched(await filled(Array.from({ length: 6 }, (_, i) => invalid(i))));
    const found = await read(store, 15);
    expect(rows).toEqual(["2026-11", "2026-10"]);
    expect(found.rows).toHaveLength(26);
  });

  test("reads all there is where there is not enough, and says that nothing is older", async () => {
    const { rows, older } = await read(await filled(), 5000);
    expect(rows).toHaveLength(60);
    expect(older).toBe(false);
  });

  test("leaves out other lines and other products", async () => {
    const store = await filled([testOn("Mill 2", "2026-11", 11)]);
    expect((await read(store, 10)).rows.every(({ line }) => line === "Dryer 1")).toBe(true);
    expect((await readTrend(store, "TH-0510", "Mill 2", last(10))).rows).toHaveLength(1);
    expect((await readTrend(store, "TH-MAS", "Dryer 1", last(10))).rows).toEqual([]);
  });

  test("of a period reads its months alone, both ends included", async () => {
    const { store, rows } = watched(await filled());
    const period = { since: { day: "2026-08-02" }, until: { day: "2026-09-01" } };
    const found = await readTrend(store, "TH-0510", "Dryer 1", { tests: null, period });
    expect(rows).toEqual(["2026-09", "2026-08"]);
    expect(found.rows.map(({ day }) => day)).toEqual([
      ...Array<string>(4).fill("2026-08-02"),
      ...Array<string>(2).fill("2026-08-03"),
      ...Array<string>(4).fill("2026-09-01"),
    ]);
  });

  test("up to a day has as many tests as asked for from there back", async () => {
    const { store, rows } = watched(await filled());
    const found = await readTrend(store, "TH-0510", "Dryer 1", {
      tests: 5,
      period: { since: null, until: { day: "2026-08-31" } },
    });
    expect(rows).toEqual(["2026-08"]);
    expect(found.rows.at(-1)?.day).toBe("2026-08-03");
  });

  test("has what was logged of that line meanwhile", async () => {
    const more = [adjusted("2026-11", 3), adjusted("2026-11", 4, "Mill 2"), adjusted("2026-07", 3)];
    const { events } = await read(await filled(more), 10);
    expect(events.map(({ detail }) => detail)).toEqual(["in 2026-11"]);
  });

  test("of a product that is tested seldom stops after two years", async () => {
    const store = await opened(await temporaryFolder());
    const years = Array.from({ length: 30 }, (_, i) => {
      const month = new Date(Date.UTC(2024, 5 + i, 1)).toISOString().slice(0, 7);
      return testOn("Dryer 1", month, 0);
    });
    must(await store.recordAll(years));
    const { store: watching, rows } = watched(store);
    const found = await read(watching, 200);
    expect(rows).toHaveLength(MOST_MONTHS);
    expect(found.rows).toHaveLength(MOST_MONTHS);
    expect(found.older).toBe(true);
  });
});

describe("frozen limits", () => {
  test("of this product and line are found however long ago they were frozen", async () => {
    const other = { ...frozenIn("2026-06"), line: "Mill 2" } as NewEntry;
    const { frozen } = await read(await filled([frozenIn("2026-06"), other]), 10);
    expect(frozen.map(({ sinceAt, line }) => [sinceAt, line])).toEqual([["2026-06-04T08:00:00+01:00", "Dryer 1"]]);
  });

  test("bring the changes since then, so that it shows whether they still hold", async () => {
    const { store, events: asked } = watched(await filled([frozenIn("2026-08"), adjusted("2026-09", 2)]));
    const { events } = await read(store, 10);
    expect(events.map(({ detail }) => detail)).toEqual(["in 2026-09"]);
    expect(asked).toEqual(["2026-11", "2026-10", "2026-09"]);
  });

  test("of long ago that nothing ended are followed back to where they began, no farther", async () => {
    const { store, events: asked, rows } = watched(await filled([frozenIn("2026-08"), adjusted("2026-06", 2)]));
    const { events } = await read(store, 10);
    expect(events).toEqual([]);
    expect(asked.at(-1)).toBe("2026-08");
    expect(rows).toEqual(["2026-11"]);
  });
});

describe("the lines of a product", () => {
  test("are those of its newest month, the one tested last in front", async () => {
    const store = await filled([testOn("Mill 2", "2026-11", 11), testOn("Granulator", "2026-07", 11)]);
    expect(await linesOf(store, "TH-0510")).toEqual(["Mill 2", "Dryer 1"]);
    expect(await linesOf(store, "TH-MAS")).toEqual([]);
  });

  test("are none on an empty station", async () => {
    const store = await opened(await temporaryFolder());
    must(await store.record(testEntry("T-1")));
    expect(await linesOf(store, "TH-BAR")).toEqual([]);
  });
});
