import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type ShakerSetting, shakerFigures } from "../../src/procedure/motion/shakerFigures.ts";
import { hzText, motionPage, motionRows, strokeText } from "../../src/report/motionPage.ts";

function figures(setting: ShakerSetting) {
  const found = shakerFigures(setting);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
}

const row = (setting: ShakerSetting, label: string) =>
  Object.fromEntries(motionRows(figures(setting)))[label] ?? "no such row";

describe("the figures of a motion in words", () => {
  test("a stroke is always told as peak to peak", () => {
    expect(strokeText(0.72)).toBe("0.720 mm peak to peak");
    expect(strokeText(30)).toBe("30.0 mm peak to peak");
  });

  test("a frequency has no idle zeros and no needless digits", () => {
    expect(hzText(50)).toBe("50 Hz");
    expect(hzText(4.7)).toBe("4.7 Hz");
    expect(hzText(200 / 3)).toBe("66.6667 Hz");
  });

  test("flight is in ms and in periods", () => {
    expect(row({ frequencyHz: 50, strokeMm: 1.2 }, "flight time")).toBe("38.9 ms");
    expect(row({ frequencyHz: 50, strokeMm: 1.2 }, "flight / period")).toBe("1.95");
  });

  test("at 1 g nothing lifts, just above it something does", () => {
    expect(row({ frequencyHz: 50, accelerationG: 1 }, "flight time")).toBe("none: nothing lifts");
    expect(row({ frequencyHz: 50, accelerationG: 1.01 }, "flight time")).toMatch(/^[\d.]+ ms$/);
  });

  test("every motion has the same six words", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 999, noNaN: true }),
        fc.double({ min: 0.001, max: 99, noNaN: true }),
        (frequencyHz, strokeMm) => {
          const rows = motionRows(figures({ frequencyHz, strokeMm }));
          expect(rows.map(([label]) => label)).toEqual([
            "frequency",
            "stroke",
            "peak acceleration",
            "throw number",
            "flight time",
            "flight / period",
          ]);
          for (const [, text] of rows) expect(text).not.toMatch(/NaN|Infinity|e[+-]/);
        },
      ),
      { numRuns: 60 },
    ));
});

describe("the page of a motion", () => {
  const look = { width: 72, chart: ["the plot   "], legend: "signs" };

  test("has figures, plot and what it rests on, in that order, without idle spaces", () => {
    const page = motionPage(figures({ frequencyHz: 50, strokeMm: 0.72 }), look);
    const at = ["frequency", "one-period stroke", "the plot\n", "One-period stroke:", "found by test", "Clamp"].map(
      (text) => page.indexOf(text),
    );
    expect(Math.min(...at)).toBeGreaterThan(0);
    expect(at).toEqual(at.toSorted((a, b) => a - b));
    for (const line of page.split("\n")) {
      expect(line).toBe(line.trimEnd());
      expect(line.length).toBeLessThanOrEqual(72);
    }
  });

  test("tells the restated stroke only where one was asked for", () => {
    const asked = motionPage(figures({ frequencyHz: 50, strokeMm: 0.72, restateHz: 60 }), look);
    expect(asked).toContain("at 60 Hz           0.500 mm peak to peak for the same peak acceleration");
    expect(motionPage(figures({ frequencyHz: 50, strokeMm: 0.72 }), look)).not.toContain("same peak acceleration");
  });
});
