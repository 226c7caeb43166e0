import { describe, expect, test } from "vitest";
import { chartDecimals, chartNumber, chartText } from "../../src/report/trendFigures.ts";
import {
  allowedWords,
  capabilityWords,
  forecastWords,
  limitsWords,
  originWords,
  shortCapabilityWords,
} from "../../src/report/trendWords.ts";
import { trendChartOf } from "../../src/shift/trend.ts";
import { type Figure, figuresOf } from "../../src/shift/trendFigure.ts";
import { frozen, read, rowsOf, SAND, STEADY } from "../shift/trendWorld.ts";

function figure(on: string): Figure {
  const found = figuresOf(SAND).find((one) => one.on === on);
  if (!found) throw new Error(on);
  return found;
}
const D50 = figure("percentileUm@50");
const chartWith = (values: readonly number[], more = {}) => trendChartOf(read(rowsOf(values), more), D50, "Dryer 1");
const steady = chartWith(STEADY);
const segmentOf = (chart = steady) => {
  const segment = chart.segments.at(-1);
  if (!segment) throw new Error("no stretch");
  return segment;
};

describe("where limits come from", () => {
  test("is told with the days of the first tests", () =>
    expect(originWords(segmentOf(), steady, [])).toBe("from 25 tests, 10-31 to 11-01"));

  test("names tests among them that lie outside", () => {
    const odd = chartWith([...STEADY.slice(0, 10), 900, ...STEADY.slice(10)]);
    expect(originWords(segmentOf(odd), odd, [])).toMatch(/^from 25 tests, .*, [1-9] of them outside$/);
  });

  test("names who froze them, when and why", () => {
    const kept = [frozen(), frozen({ number: 991, at: "2026-11-20T10:00:00+01:00", by: "ML", reason: "new deck" })];
    const chart = chartWith(STEADY, { frozen: kept });
    expect(originWords(segmentOf(chart), chart, kept)).toBe("frozen 2026-11-20 by ML: new deck");
    expect(originWords(segmentOf(chart), chart, [])).toBe("frozen");
  });

  test("or why there are none yet", () => {
    const few = chartWith(STEADY.slice(0, 5));
    expect(limitsWords(segmentOf(few), few, [])).toBe("no control limits: limits need 8 tests, there are 5");
  });

  test("stands behind the limits themselves", () =>
    expect(limitsWords(segmentOf(), steady, [])).toMatch(
      /^centre 74\d um, control limits 7\d\d um to 7\d\d um \(from 25 tests, 10-31 to 11-01\)$/,
    ));
});

describe("what the product allows", () => {
  test.each([
    ["percentileUm@50", "690 um to 790 um"],
    ["uniformityCoefficient", "at most 2"],
    ["passingPct@500", "3 % to 20 %"],
    ["percentileUm@10", "no limit"],
  ])("on %s reads %j", (on, words) => expect(allowedWords(figure(on))).toBe(words));

  test("on one side only says at least", () => expect(allowedWords({ ...D50, max: null })).toBe("at least 690 um"));
});

describe("capability in words", () => {
  test("has all four indices with their bounds, and how many tests", () =>
    expect(capabilityWords(steady.capability)).toMatch(
      /^Cp [\d.]+ \([\d.]+ to [\d.]+\), Cpk .*, Pp .*, Ppk [\d.]+ \([\d.]+ to [\d.]+\); 40 tests, bounds 95 %$/,
    ));

  test("in short has bounds of two", () =>
    expect(shortCapabilityWords(steady.capability).match(/\(/g)).toHaveLength(2));

  test("with one limit has no Cp and says nothing of it", () => {
    const { capability } = trendChartOf(read(rowsOf(STEADY)), { ...D50, min: null }, "Dryer 1");
    expect(capabilityWords(capability)).toMatch(/^Cpk /);
    expect(shortCapabilityWords(capability)).toMatch(/^Cpk /);
  });

  test("without a limit says why there is none", () => {
    const { capability } = trendChartOf(read(rowsOf(STEADY)), { ...D50, min: null, max: null }, "Dryer 1");
    expect(capabilityWords(capability)).toBe("no capability: without a limit there is no capability");
    expect(shortCapabilityWords(capability)).toBe("no capability: without a limit there is no capability");
  });
});

describe("a drift in words", () => {
  const climbing = chartWith(STEADY.map((um, i) => um - 10 + i));

  test("has direction, slope, how sure, which limit and when", () =>
    expect(forecastWords(D50, climbing.forecast)).toMatch(
      /^rising [\d.]+ um a test \(p (0\.\d{3}|below 0\.001)\); the limit 790 um is reached in about \d+ tests/,
    ));

  test("that comes to no limit says why", () => {
    const { forecast } = trendChartOf(read(rowsOf(STEADY.map((um, i) => um + i))), { ...D50, max: null }, "Dryer 1");
    expect(forecastWords(D50, forecast)).toMatch(/^rising .*; it is rising and there is no limit on that side$/);
  });

  test("that is none says so, and how likely chance is", () =>
    expect(forecastWords(D50, steady.forecast)).toMatch(/^no drift: chance alone does this \(p 0\.\d\d\)$/));

  test("of too few tests says that nothing can be told", () =>
    expect(forecastWords(D50, chartWith(STEADY.slice(0, 4)).forecast)).toBe(
      "no drift told: a slope needs 10 tests, there are 4",
    ));
});

describe("figures of a chart", () => {
  const scale = (unit: string, sigma: number | null) => ({
    unit,
    sigma:
      sigma === null
        ? { determinable: false as const, reason: "" }
        : { determinable: true as const, value: sigma, unit },
  });

  test.each([
    ["um", 15, 0],
    ["um", 0.4, 1],
    ["1", 0.08, 2],
    ["1", 0.004, 3],
    ["%", 15, 1],
    ["%", 0.004, 3],
    ["%", 1e-12, 6],
    ["um", null, 0],
    ["%", null, 2],
    ["1", null, 2],
  ])("in %s that scatter by %s have %d decimals", (unit, sigma, decimals) =>
    expect(chartDecimals(scale(unit, sigma))).toBe(decimals),
  );

  test("have their unit in words, none at the axis", () => {
    expect(chartNumber(742.36, scale("um", 15))).toBe("742");
    expect(chartText(742.36, scale("um", 15))).toBe("742 um");
    expect(chartText(99.9312, scale("%", 0.02))).toBe("99.93 %");
    expect(chartText(1.8234, scale("1", 0.02))).toBe("1.82");
    expect(chartText(2.8234, scale("phi", 0.02))).toBe("2.82 phi");
  });
});
