import { describe, expect, test } from "vitest";
import type { IndexMonth } from "../../src/record/indexRow.ts";
import { dayCodec, indexCodec } from "../../src/store/dayCodec.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { sumHolds, withSum } from "../../src/store/summedCodec.ts";
import { chainOf } from "./chain.ts";
import { testEntry } from "./records.ts";

const SEAL = "0".repeat(64);
const row = indexRowOf({
  ...testEntry("T-1"),
  number: 1,
  day: "2026-11-24",
  station: "TH-DRY1",
  previous: SEAL,
} as never);
const month: IndexMonth = {
  schema: "sievewright.index/1",
  month: "2026-11",
  days: { "2026-11-24": { entries: 1, lastSeal: SEAL } },
  drawnBy: 1,
  rows: [row],
};
const written = indexCodec.encode(month);

describe("a month's index as text", () => {
  test("comes back as it went, its sum with the file", () => {
    expect(sumHolds(written)).toBe(true);
    expect(indexCodec.decode(written)).toEqual({ is: "read", value: month });
  });

  test("is read without a sum, as older files are", () => {
    const older = written.replace(/\n {2}"sum": "[0-9a-f]+",/, "");
    expect(sumHolds(older)).toBe(false);
    expect(indexCodec.decode(older)).toEqual({ is: "read", value: month });
  });

  test("is checked where it is not as it was written", () => {
    const damaged = written.replace('"lot":', '"lots":');
    expect(sumHolds(damaged)).toBe(false);
    expect(indexCodec.decode(damaged)).toMatchObject({ is: "damaged" });
    const figures = written.replace(/"passingPct":\{[^}]*\}/, '"passingPct":{"500":"many"}');
    expect(indexCodec.decode(figures)).toMatchObject({
      is: "damaged",
      why: "damaged at rows, item 1, passingPct: expected numbers by name",
    });
  });

  test("is taken for what it is where it is as it was written, and not checked row by row again", () => {
    const text = withSum(written.replace(/\n {2}"sum": "[0-9a-f]+",/, "").replace('"lot":', '"lots":'));
    expect(indexCodec.decode(text)).toMatchObject({ is: "read" });
  });

  test("is told to be of a newer program, as written as it may be", () => {
    const text = withSum('{\n  "schema": "sievewright.index/9"\n}\n');
    expect(indexCodec.decode(text)).toMatchObject({ is: "newer version" });
  });
});

describe("a day of the log as text", () => {
  const [day] = chainOf({ "2026-11-24": 3 }).days;
  if (day === undefined) throw new Error("the chain has no day");
  const whole = dayCodec.encode(day);

  test("comes back as it went, its sum with the file", () => {
    expect(sumHolds(whole)).toBe(true);
    expect(dayCodec.decode(whole)).toEqual({ is: "read", value: day });
  });

  test("is checked where it is not as it was written", () => {
    expect(dayCodec.decode(whole.replace('"kind":', '"kinds":'))).toMatchObject({ is: "damaged" });
    const older = whole.replace(/\n {2}"sum": "[0-9a-f]+",/, "");
    expect(dayCodec.decode(older)).toEqual({ is: "read", value: day });
  });
});
