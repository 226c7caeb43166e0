import { beforeAll, describe, expect, test } from "vitest";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { openStore } from "../../src/store/openStore.ts";
import { folder, run } from "./inProcess.ts";

const data = folder();
const trend = (...more: string[]) => run(["trend", ...more, "--data", data]);

interface Shown {
  readonly points: readonly {
    readonly at: string;
    readonly testId: string;
    readonly value: number;
    readonly signals: readonly { readonly rule: string; readonly words: string }[];
  }[];
  readonly [key: string]: unknown;
}
async function json(...more: string[]): Promise<Shown> {
  const { code, out, err } = await trend(...more, "--json");
  expect({ code, err }).toEqual({ code: 0, err: "" });
  return JSON.parse(out);
}

async function records(
  ...entries: Parameters<Extract<Awaited<ReturnType<typeof openStore>>, { ok: true }>["value"]["record"]>[0][]
) {
  const store = await openStore(data, { now: () => "2026-11-24T03:00:00+01:00", indexRowOf });
  if (!store.ok) throw new Error(store.reason);
  for (const entry of entries) {
    const recorded = await store.value.record(entry);
    if (!recorded.ok) throw new Error(recorded.reason);
  }
  await store.value.close();
}

beforeAll(async () => {
  expect(await run(["demo", "--data", data, "--fill", "300", "--seed", "3"])).toMatchObject({ code: 0, err: "" });
}, 60_000);

describe("trend --json", () => {
  test("has every key that other programs rely on", async () => {
    const shown = await json("TH-0510", "--value", "d50");
    expect(Object.keys(shown)).toEqual(
      expect.arrayContaining([
        "points",
        "centre",
        "lower",
        "upper",
        "ewma",
        "cusum",
        "capability",
        "forecast",
        "segments",
        "setAside",
      ]),
    );
    expect(shown).toMatchObject({
      schema: "sievewright.trend/1",
      product: "TH-0510",
      value: "percentileUm@50",
      unit: "um",
      min: 690,
      max: 790,
      line: "Dryer 1",
    });
    const { centre, lower, upper } = shown as unknown as Record<string, number>;
    expect(lower).toBeLessThan(centre ?? Number.NaN);
    expect(centre).toBeLessThan(upper ?? Number.NaN);
  });

  test("has a point for each test, oldest first, with the value that the index has", async () => {
    const { points } = await json("TH-0510", "--value", "d50");
    expect(points.length).toBeGreaterThan(80);
    expect(points.map(({ at }) => Date.parse(at))).toEqual(
      points.map(({ at }) => Date.parse(at)).toSorted((a, b) => a - b),
    );
    const store = await openStore(data, { now: () => "2026-11-24T03:00:00+01:00", indexRowOf, reading: true });
    if (!store.ok) throw new Error(store.reason);
    const rows = (await Promise.all(store.value.indexMonths().map((month) => store.value.indexRows(month)))).flat();
    await store.value.close();
    for (const { testId, value } of points)
      expect(rows.find((row) => row.testId === testId)?.values["percentileUm@50"]).toBe(value);
    const invalid = rows.filter(({ product, test: how }) => product === "TH-0510" && how === "invalid");
    for (const { testId } of invalid) expect(points.some((point) => point.testId === testId)).toBe(false);
  });

  test("names signals by their rule and in words", async () => {
    const { points } = await json("TH-0510", "--value", "d50");
    const signals = points.flatMap((point) => point.signals);
    expect(signals.length).toBeGreaterThan(0);
    for (const { rule, words } of signals) expect([typeof rule, words.length > 5]).toEqual(["string", true]);
  });

  test.each([
    ["d50", "percentileUm@50", "um"],
    ["percentileUm@90", "percentileUm@90", "um"],
    ["passingPct@500", "passingPct@500", "%"],
    ["retainedPct@500", "retainedPct@500", "%"],
    ["uniformityCoefficient", "uniformityCoefficient", "1"],
  ])("--value %s charts %s in %s", async (asked, value, unit) =>
    expect(await json("TH-0510", "--value", asked)).toMatchObject({ value, unit }),
  );

  test("--last takes so many of the newest tests that count", async () => {
    const all = await json("TH-0510", "--value", "d50");
    const few = await json("TH-0510", "--value", "d50", "--last", "12");
    expect(few.points.map(({ testId }) => testId)).toEqual(all.points.slice(-12).map(({ testId }) => testId));
  });

  test("--since and --until take a stretch, both ends included", async () => {
    const all = await json("TH-0510", "--value", "d50", "--since", "2026-01-01");
    const [from, to] = [all.points[20], all.points[45]];
    if (!from || !to) throw new Error("too few tests");
    const some = await json("TH-0510", "--value", "d50", "--since", from.at, "--until", to.at);
    expect(some.points.map(({ testId }) => testId)).toEqual(all.points.slice(20, 46).map(({ testId }) => testId));
  });

  test("--rules nelson sees what the four zone rules don't, and the other way round", async () => {
    const rules = async (set: string) => {
      const { points } = await json("TH-MAS", "--value", "d50", "--rules", set);
      return new Set(points.flatMap(({ signals }) => signals.map(({ rule }) => rule)));
    };
    expect(await rules("western-electric")).not.toContain("9-on-one-side");
    expect(await rules("nelson")).not.toContain("8-on-one-side");
    expect(await rules("nelson")).toContain("9-on-one-side");
  });

  test("a product without a test has no points, and null where a number would be", async () => {
    const none = await json("TH-0510", "--line", "Mill 2", "--value", "d50");
    expect(none).toMatchObject({ points: [], centre: null, lower: null, upper: null });
  });
});

describe("trend as text", () => {
  test("has the chart, its legend, and limits, capability and drift in words, within the width", async () => {
    const { code, out } = await trend("TH-0510", "--value", "d50");
    expect(code).toBe(0);
    for (const words of [
      "TH-0510 rev 3 on Dryer 1: d50",
      "product's limit ══",
      "control limits",
      "capability",
      "drift",
    ])
      expect(out).toContain(words);
    expect(out).toMatch(/centre \d+┤/);
    for (const line of out.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  });

  test("without --value begins with d50 where the product limits it", async () =>
    expect((await trend("TH-0510")).out).toContain(": d50, "));

  test("in ASCII where there is no Unicode", async () => {
    const { out } = await run(["trend", "TH-0510", "--data", data], { env: { SIEVEWRIGHT_ASCII: "1" } });
    expect(out).toMatch(/^[\x20-\x7e\n]*$/);
  });
});

const inWords = async () => (await trend("TH-0510", "--value", "d50")).out.replace(/\s+/g, " ");

describe("trend and what was logged", () => {
  test("an adjustment starts limits anew; frozen limits hold until the next one and name who froze them", async () => {
    const before = await json("TH-0510", "--value", "d50");
    const [first, last] = [before.points[10], before.points[30]];
    if (!first || !last) throw new Error("too few tests");
    const ref = (testId: string) => ({ testId, day: "2026-10-01", number: 1 });
    await records({
      kind: "limits frozen",
      at: "2026-11-24T03:00:00+01:00",
      by: "SB",
      product: "TH-0510",
      line: "Dryer 1",
      on: "percentileUm@50",
      chart: "individuals",
      replicates: 1,
      centre: 700,
      sigma: 9,
      tests: 21,
      first: ref(first.testId),
      last: ref(last.testId),
      sinceAt: first.at,
      leftOut: [],
      reason: "agreed with quality",
    });
    expect(await json("TH-0510", "--value", "d50")).toMatchObject({ centre: 700, lower: 673, upper: 727 });
    expect(await inWords()).toContain("frozen 2026-11-24 by SB: agreed with quality");
    await records({
      kind: "line adjusted",
      at: last.at,
      by: "SB",
      line: "Dryer 1",
      what: "deck",
      detail: "0.71 for 0.75",
    });
    const after = await json("TH-0510", "--value", "d50");
    expect(after.segments).toHaveLength(2);
    expect(after.centre).not.toBe(700);
    expect(after.changes).toMatchObject([{ at: last.at, words: "deck: 0.71 for 0.75" }]);
    expect(await inWords()).toContain("after deck: 0.71 for 0.75: ");
  });
});

describe("trend that can't be", () => {
  test.each([
    [["NOPE"], 66, /product NOPE is not in the library .*: known are TH-0510/],
    [["TH-0510", "--value", "nope"], 64, /names no figure: give d50/],
    [["TH-0510", "--value", "d51"], 64, /d51 is not kept in the index/],
    [["TH-0510", "--line", "Dryer 9"], 64, /--line Dryer 9: this station has Dryer 1, /],
    [["TH-0510", "--last", "0"], 64, /--last 0: give a whole number from 1/],
    [["TH-0510", "--last", "many"], 64, /--last many: give a whole number/],
    [["TH-0510", "--rules", "mine"], 64, /--rules mine: give western-electric or nelson/],
    [["TH-0510", "--rules", "toString"], 64, /--rules toString: give western-electric or nelson/],
    [["TH-0510", "--since", "last week"], 64, /--since "last week" is neither a day/],
    [[], 64, /missing required argument 'product'/],
  ])("%j ends with %d and says what to do", async (argv, code, why) => {
    const ended = await trend(...argv);
    expect(ended).toMatchObject({ code, out: "" });
    expect(ended.err).toMatch(why);
    expect(ended.err.trimEnd().split("\n")).toHaveLength(1);
  });

  test("without a station ends with 66", async () =>
    expect(await run(["trend", "TH-0510", "--data", `${data}/none`])).toMatchObject({ code: 66, out: "" }));
});
