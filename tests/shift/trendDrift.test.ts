import { describe, expect, test } from "vitest";
import { driftWords } from "../../src/report/trendWords.ts";
import { boundText, driftSentence, reachWords } from "../../src/shift/trendDrift.ts";
import { smallTrends } from "../../src/shift/trendSmall.ts";
import { adjusted, read, rowAt, rowsOf, SAND, STEADY } from "./trendWorld.ts";

/** d50 that climbs by 1 um a test on top of its scatter. */
const CLIMBING = STEADY.map((um, i) => um - 10 + i);
const climbing = rowsOf(CLIMBING);

describe("drifts of a product", () => {
  test("say what rises, which limit it comes to, and in about how many tests", () => {
    const [first, ...more] = driftWords(SAND, climbing, []);
    expect(first).toMatch(/^TH-0510 d50 rises; the limit 790 um is reached in about \d+ tests \(\d+ to \d+\)$/);
    expect(more).toEqual([]);
    const about = Number(/about (\d+)/.exec(first ?? "")?.[1]);
    expect(about).toBeGreaterThan(15);
    expect(about).toBeLessThan(27);
  });

  test("are silent where nothing drifts", () => expect(driftWords(SAND, rowsOf(STEADY), [])).toEqual([]));

  test("are silent without tests, of other products, and of too few", () => {
    expect(driftWords(SAND, [], [])).toEqual([]);
    expect(driftWords({ ...SAND, code: "TH-MAS" }, climbing, [])).toEqual([]);
    expect(driftWords(SAND, climbing.slice(0, 6), [])).toEqual([]);
  });

  test("are told in whatever order the tests come", () =>
    expect(driftWords(SAND, climbing.toReversed(), [])).toEqual(driftWords(SAND, climbing, [])));

  test("begin anew after an adjustment", () => expect(driftWords(SAND, climbing, [adjusted(35)])).toEqual([]));

  test("leave out tests that don't count", () => {
    const wild = climbing.map((row, i) => (i % 2 === 0 ? row : { ...row, test: "invalid" as const }));
    const kept = climbing.filter((_, i) => i % 2 === 0);
    expect(driftWords(SAND, wild, [])).toEqual(driftWords(SAND, kept, []));
    expect(driftWords(SAND, wild, [])).toHaveLength(1);
  });

  test("name the line where the product runs on several", () => {
    const onMill = rowsOf(STEADY).map((row) => ({ ...row, line: "Mill 2" }));
    expect(driftWords(SAND, [...climbing, ...onMill], [])[0]).toMatch(/^TH-0510 on Dryer 1 d50 rises;/);
  });

  test("put the nearest limit first", () => {
    const both = climbing.map((row, i) => ({
      ...row,
      values: { ...row.values, uniformityCoefficient: 1.6 + i * 0.0095 + 0.01 * Math.sin(i * 2.399) },
    }));
    expect(driftWords(SAND, both, []).map((words) => words.slice(0, 14))).toEqual(["TH-0510 Unifor", "TH-0510 d50 ri"]);
  });

  test("leave a limit alone that is more than 50 tests away", () => {
    const slow = rowsOf(STEADY.map((um, i) => um - 40 + i * 0.4));
    expect(driftWords(SAND, slow, [])).toEqual([]);
  });
});

describe("words of a forecast", () => {
  const reach = (tests: number, earliest: number, latest: number | null) => ({
    tests: 40,
    trend: { determinable: false as const, reason: "" },
    reach: { determinable: true as const, side: "max" as const, limit: 790, tests, earliest, latest },
  });

  test.each([
    [12.2, 8.1, 24.9, "in about 12 tests (8 to 25)"],
    [12.2, 8.1, null, "in about 12 tests (8 or more)"],
    [0.3, 0.1, 0.4, "in about 1 test"],
    [3, 3, 3.2, "in about 3 tests"],
  ])("%d tests from %d to %s read %j", (tests, earliest, latest, words) =>
    expect(reachWords(reach(tests, earliest, latest))).toBe(words),
  );

  test("are none where no limit is foretold", () => {
    const absent = { determinable: false as const, reason: "no drift" };
    expect(reachWords({ tests: 40, trend: absent, reach: absent })).toBeNull();
    const [small] = smallTrends(SAND, read(rowsOf(STEADY)), "Dryer 1");
    if (!small) throw new Error("no limits");
    expect(driftSentence(small)).toBeNull();
  });

  test.each([
    [790, "um", "790 um"],
    [1400, "um", "1.4 mm"],
    [60, "%", "60 %"],
    [2, "1", "2"],
  ])("a bound of %d %s reads %s", (bound, unit, text) => expect(boundText(bound, unit)).toBe(text));
});

describe("all limits in small", () => {
  const small = smallTrends(SAND, read(climbing), "Dryer 1");
  const of = (on: string) => small.find(({ figure }) => figure.on === on);

  test("are all limited figures and no others, each with its values oldest first", () => {
    expect(small.map(({ figure }) => figure.on)).toEqual([
      "coarserPct@710",
      "passingPct@500",
      "percentileUm@50",
      "uniformityCoefficient",
    ]);
    expect(of("percentileUm@50")?.values).toEqual(CLIMBING);
  });

  test("say which drifts: that one and no other", () =>
    expect(small.filter(({ forecast }) => forecast.trend.determinable).map(({ figure }) => figure.on)).toEqual([
      "percentileUm@50",
    ]));

  test.each([
    [791, "above"],
    [790, "within"],
    [690, "within"],
    [689, "below"],
  ])("a newest d50 of %d is %s", (um, against) => {
    const [, , d50] = smallTrends(SAND, read(rowsOf([740, um])), "Dryer 1");
    expect(d50).toMatchObject({ newest: um, against });
  });

  test("have no newest where no test has the figure", () =>
    expect(smallTrends(SAND, read([rowAt(0, { values: {} })]), "Dryer 1")[2]).toMatchObject({
      newest: null,
      against: null,
      signal: false,
      values: [],
    }));

  test("show a signal at the newest test only while it is the newest", () => {
    const jump = [...STEADY, 900];
    const d50 = (values: readonly number[]) => smallTrends(SAND, read(rowsOf(values)), "Dryer 1")[2];
    expect(d50(jump)?.signal).toBe(true);
    expect(d50([...jump, 740, 741, 739])?.signal).toBe(false);
  });

  test("ask more of each than of one alone: what chance does one time in 30 is no drift among four limits", () => {
    const fits = (p: number) => p < 0.05 && p > 0.05 / 4;
    const found = Array.from({ length: 60 }, (_, k) => {
      const values = STEADY.map((um, i) => um + i * k * 0.01);
      const alone = smallTrends(
        { ...SAND, envelope: [], values: SAND.values?.slice(0, 1) ?? [] },
        read(rowsOf(values)),
        "Dryer 1",
      )[0];
      const among = smallTrends(SAND, read(rowsOf(values)), "Dryer 1")[2];
      const p = alone?.forecast.trend.determinable ? alone.forecast.trend.p : 1;
      return { p, among: among?.forecast.trend.determinable };
    }).filter(({ p }) => fits(p));
    expect(found.length).toBeGreaterThan(0);
    expect(found.every(({ among }) => among === false)).toBe(true);
  });
});
