import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { flightChart, flightLegend } from "../../src/chart/flightChart.ts";
import { partitionChart, partitionLegend } from "../../src/chart/partitionChart.ts";
import { deckPerformance } from "../../src/grading/deck/deckPerformance.ts";
import { type ShakerFigures, shakerFigures } from "../../src/procedure/motion/shakerFigures.ts";
import { anyDeck, deckB, partedStreams } from "../grading/deck/streams.ts";
import { anyHeight, anyWidth, expectToFill, picture } from "./drawing.ts";

function at(frequencyHz: number, strokeMm: number): ShakerFigures {
  const found = shakerFigures({ frequencyHz, strokeMm });
  if (!found.ok) throw new Error(found.reason);
  return found.value;
}

const columnOf = (rows: readonly string[], glyph: string): number =>
  Math.max(...rows.map((row) => [...row].indexOf(glyph)));

describe("flight over stroke", () => {
  test("rises from 0 where nothing is thrown, through one period, to the setting", () => {
    expect(picture(flightChart({ figures: at(50, 1.2), width: 44, height: 10 }))).toBe(`
3┤
 │
2┤                                ╭●────────
 │                         ╭──────╯
 │                    ╭────╯
1┤         ╭────────◆─╯
 │     ╭───╯        ┊
0┤─────╯            ┊
 └┬─────────────┬─────────────┬────────────┬
 0.0           0.5           1.0      1.5 mm
`);
  });

  test("has the setting left of the one-period stroke where its flight is shorter than a period", () => {
    const rows = flightChart({ figures: at(50, 0.3), width: 60, height: 12 });
    expect(columnOf(rows, "●")).toBeLessThan(columnOf(rows, "◆"));
    const beyond = flightChart({ figures: at(50, 0.9), width: 60, height: 12 });
    expect(columnOf(beyond, "●")).toBeGreaterThan(columnOf(beyond, "◆"));
  });

  test("fills its place exactly, whatever it is given", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 400, noNaN: true }),
        fc.double({ min: 0.001, max: 100, noNaN: true }),
        anyWidth,
        anyHeight,
        fc.boolean(),
        (hz, mm, width, height, ascii) =>
          expectToFill(flightChart({ figures: at(hz, mm), width, height, ascii }), width, height),
      ),
      { numRuns: 60 },
    ));

  test("says what its signs mean, in those that are drawn", () => {
    expect(flightLegend()).toBe("this setting ●   one period ◆");
    expect(flightLegend(true)).toBe("this setting o   one period #");
  });
});

describe("the partition curve", () => {
  const performance = deckPerformance(deckB.feed, deckB.oversize, deckB.undersize, { interpolation: "log-linear" });

  test("has a dot for each class and the cut size on the half, over the deck's sieves", () => {
    expect(picture(partitionChart({ performance, interpolation: "log-linear", width: 50, height: 12 }))).toBe(
      `
100┤                                    ╭──●─────●
   │                               ╭─●──╯
 75┤                             ╭─╯
   │                           ╭─╯
 50┤                         ◆─●
   │                        ╭╯
   │                      ╭─╯┊
 25┤                   ╭─●╯  ┊
   │             ╭─────╯     ┊
  0┤●───────────●╯           ┊
   └──────┬───────────┬─────┬─────┬─────┬─────┬───
          1           2    2.8    4    5.6    8 mm
`,
    );
  });

  test("without a class says so", () => {
    const nothing = { partition: [], cutSizeUm: { determinable: false, reason: "none" } } as const;
    const rows = partitionChart({ performance: nothing, interpolation: "log-linear", width: 40, height: 8 });
    expect(rows.join("\n")).toContain("no partition curve");
  });

  test("fills its place exactly, whatever deck it is of", () =>
    fc.assert(
      fc.property(anyDeck, anyWidth, anyHeight, fc.boolean(), ({ feedG, partitionPct }, width, height, ascii) => {
        const { feed, oversize, undersize } = partedStreams(feedG, partitionPct);
        const found = deckPerformance(feed, oversize, undersize, { interpolation: "monotone" });
        expectToFill(
          partitionChart({ performance: found, interpolation: "monotone", width, height, ascii }),
          width,
          height,
        );
      }),
      { numRuns: 60 },
    ));

  test("says what its signs mean, in those that are drawn", () => {
    expect(partitionLegend()).toBe("class ●   cut size ◆");
    expect(partitionLegend(true)).toBe("class o   cut size #");
  });
});
