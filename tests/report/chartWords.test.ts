import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { barsText, curveText, seriesText } from "../../src/report/chartWords.ts";

describe("a chart over time in words", () => {
  test("has its range, its latest value, and whether it drifts", () => {
    expect(seriesText([700, 742], "um")).toBe("from 700 um to 742 um, latest 742 um, no drift");
    const steps = Array.from({ length: 20 }, (_, i) => i);
    expect(
      seriesText(
        steps.map((i) => 700 + 2 * i),
        "um",
      ),
    ).toBe("from 700 um to 738 um, latest 738 um, rising");
    expect(
      seriesText(
        steps.map((i) => 700 - 2 * i),
        "um",
      ),
    ).toBe("from 662 um to 700 um, latest 662 um, falling");
  });

  test("says nothing without a value, and something with any", () => {
    expect(seriesText([], "um")).toBe("");
    fc.assert(
      fc.property(fc.array(fc.double({ min: 1, max: 1e5, noNaN: true }), { minLength: 1, maxLength: 40 }), (values) => {
        expect(seriesText(values, "um")).toMatch(
          /^from \S+ [um]m to \S+ [um]m, latest \S+ [um]m, (no drift|rising|falling)$/,
        );
      }),
    );
  });
});

test("a curve tells each sieve that something passes, the pan and what is not known aside", () => {
  const points = [
    { apertureUm: 1400, passingPct: 98.1 },
    { apertureUm: 1000, passingPct: null },
    { apertureUm: 710, passingPct: 42 },
    { apertureUm: 0, passingPct: 0 },
  ];
  expect(curveText(points)).toBe("passing curve: 98.1 % at 1.40 mm, 42.0 % at 710 um");
  expect(curveText(points.slice(0, 2))).toBe("");
});

test("bars tell their names and percentages in their order", () =>
  expect(
    barsText("retained % by sieve", [
      ["710 um", 37.02],
      ["pan", 1.2],
    ]),
  ).toBe("retained % by sieve: 710 um 37.0 %, pan 1.2 %"));
