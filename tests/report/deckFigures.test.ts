import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { deckPerformance } from "../../src/grading/deck/deckPerformance.ts";
import {
  classCells,
  cutFigures,
  type DeckFigure,
  deckOf,
  recoveryFigures,
  splitFigures,
} from "../../src/report/deckFigures.ts";
import { deckJson } from "../../src/report/deckJson.ts";
import { deckPage } from "../../src/report/deckPage.ts";
import { anyDeck, deckB, partedStreams, streamsOf } from "../grading/deck/streams.ts";
import { assessed } from "./assessed.ts";

const performanceOf = ({ feed, oversize, undersize }: typeof deckB) =>
  deckPerformance(feed, oversize, undersize, { interpolation: "log-linear" });

const good = performanceOf(deckB);
const bad = performanceOf({ feed: deckB.oversize, oversize: deckB.feed, undersize: deckB.undersize });
/** A feed sample that fits neither product well. */
const poor = performanceOf(
  streamsOf("4000:30 2000:30 1000:25 pan:15", "4000:60 2000:33 1000:5 pan:2", "4000:1 2000:20 1000:50 pan:29"),
);

const textOf = (figures: readonly DeckFigure[], label: string): string =>
  figures.find((figure) => figure.label === label)?.text ?? "no such figure";
const allOf = (performance: typeof good) => [
  ...splitFigures(performance),
  ...recoveryFigures(performance),
  ...cutFigures(performance),
];

describe("the figures of a deck", () => {
  test("shares are in percent, sizes as sizes, ratios plain", () => {
    expect(textOf(splitFigures(good), "oversize share")).toBe("40.8 % +/- 0.0");
    expect(textOf(recoveryFigures(good), "overall effectiveness")).toBe("70.8 % (70.8 %)");
    expect(textOf(cutFigures(good), "cut size d50")).toBe("3.07 mm");
    expect(textOf(cutFigures(good), "probable error")).toBe("754 um");
    // d25 and d75 by hand from the partition numbers 20, 60 and 90 % at the middles of their classes.
    const [fine, middle, coarse] = [Math.sqrt(2000 * 2800), Math.sqrt(2800 * 4000), Math.sqrt(4000 * 5600)];
    expect((middle * (coarse / middle) ** 0.5 - fine * (middle / fine) ** 0.125) / 2).toBeCloseTo(754.3, 1);
    expect(textOf(cutFigures(good), "imperfection")).toMatch(/^0\.\d{3}$/);
  });

  test("beside each recovery stands the one with the products' own feed, and a bad fit sets them apart", () => {
    const [, over = { text: "" }] = recoveryFigures(poor);
    const [sampled, ofProducts] = (over.text.match(/[\d.]+/g) ?? []).map(Number);
    expect(sampled).toBeGreaterThan(0);
    expect(Math.abs((sampled ?? 0) - (ofProducts ?? 0))).toBeGreaterThan(1);
    expect(textOf(splitFigures(poor), "misfit in % points")).toMatch(/^rms [1-9]/);
  });

  test("two classes leave no misfit to judge the share by, so no +/- is shown", () => {
    const two = performanceOf(streamsOf("1000:50 pan:50", "1000:80 pan:20", "1000:30 pan:70"));
    expect(textOf(splitFigures(two), "oversize share")).toBe("40.0 %");
  });

  test("none says why, every one with a dash and never NaN", () => {
    for (const { text, told, label } of allOf(bad)) {
      expect(text).toMatch(label.includes("recovery") || label.includes("overall") ? /^– \(–\)$/ : /^–$/);
      if (!label.startsWith("misfit")) expect(told.join()).toContain("do not balance");
    }
  });

  test("every deck has the same labels in the same order", () =>
    fc.assert(
      fc.property(anyDeck, ({ feedG, partitionPct }) => {
        const found = allOf(performanceOf(partedStreams(feedG, partitionPct)));
        expect(found.map(({ label }) => label)).toEqual(allOf(good).map(({ label }) => label));
        for (const { text } of found) expect(text).not.toMatch(/NaN|Infinity|undefined/);
      }),
      { numRuns: 40 },
    ));
});

describe("the table of classes", () => {
  test("has a row for each class, coarsest first, the pan last, under one heading", () => {
    const [heading = [], ...rows] = classCells(good);
    expect(heading.slice(0, 6)).toEqual(["class on", "middle", "feed", "oversize", "undersize", "goes over"]);
    expect(rows.map((row) => row[0])).toEqual([
      "8.00 mm",
      "5.60 mm",
      "4.00 mm",
      "2.80 mm",
      "2.00 mm",
      "1.00 mm",
      "pan",
    ]);
    expect(rows.map((row) => row[5])).toEqual(["100.0", "98.0", "90.0", "60.0", "20.0", "4.0", "1.0"]);
    for (const row of rows) expect(row).toHaveLength(heading.length);
  });

  test("a class that neither product has gets a dash", () => {
    const gap = performanceOf(
      streamsOf("4000:30 2000:0 1000:40 pan:30", "4000:70 2000:0 1000:25 pan:5", "4000:2 2000:0 1000:50 pan:48"),
    );
    expect(classCells(gap)[2]).toEqual(["2.00 mm", "2.83 mm", "0.0", "0.0", "0.0", "–", ""]);
  });
});

describe("a deck of assessments", () => {
  const sheet = (masses: string) =>
    assessed(`aperture_um,net_g\n${masses.replaceAll(" ", "\n").replaceAll(":", ",")}\n`);
  const streams = {
    feed: sheet("1000:50 500:30 pan:20"),
    oversize: sheet("1000:80 500:15 pan:5"),
    undersize: sheet("1000:20 500:45 pan:35"),
  };

  test("is that of their gradings", () => {
    const found = deckOf(streams, { interpolation: "log-linear" });
    const direct = performanceOf(streamsOf("1000:50 500:30 pan:20", "1000:80 500:15 pan:5", "1000:20 500:45 pan:35"));
    expect(found).toEqual(direct);
    expect(found.oversizeShare).toMatchObject({ determinable: true, value: expect.closeTo(0.5, 12) });
  });

  test("takes the recoveries at the sieve that is asked for", () =>
    expect(deckOf(streams, { interpolation: "log-linear", cutUm: 500 }).cutUm).toMatchObject({ value: 500 }));
});

describe("a deck as JSON", () => {
  test("has a number or null for every figure, and a reason for every null", () =>
    fc.assert(
      fc.property(anyDeck, ({ feedG, partitionPct }) => {
        const performance = performanceOf(partedStreams(feedG, partitionPct));
        const json = JSON.parse(deckJson(performance, "log-linear", []));
        for (const key of ["oversizeShare", "oversizeRecovery", "overallEffectiveness", "cutSizeUm", "imperfection"]) {
          if (json[key] === null) expect(json.reasons[key]).toMatch(/\w/);
          else {
            expect(json[key]).toBeTypeOf("number");
            expect(json.reasons).not.toHaveProperty(key);
          }
        }
      }),
      { numRuns: 40 },
    ));

  test("tells notes, and gives the figures unrounded", () => {
    const json = JSON.parse(deckJson(good, "monotone", ["feed: dusty"]));
    expect(json).toMatchObject({ notes: ["feed: dusty"], interpolation: "monotone" });
    expect(json.oversizeShare).toBeCloseTo(0.4076, 12);
    expect(json.reasons).toEqual({});
  });

  test("of streams that do not balance is null throughout, with the reason", () => {
    const json = JSON.parse(deckJson(bad, "log-linear", []));
    expect(json).toMatchObject({ oversizeShare: null, partition: [], balance: null });
    expect(json.reasons.oversizeShare).toContain("do not balance");
  });
});

describe("a deck as a page", () => {
  const head = {
    names: { feed: "f.csv", oversize: "o.csv", undersize: "u\u001b[31m.csv" },
    interpolation: "log-linear",
    notes: ["the feed was damp"],
  } as const;

  test("has all its parts in order, notes marked, and nothing raw from a name", () => {
    const page = deckPage(good, head, { width: 80, chart: ["a curve"], legend: "signs" });
    const places = [
      "screen deck",
      "oversize share",
      "recoveries at",
      "cut size d50",
      "class on",
      "a curve",
      "! the feed",
    ];
    const at = places.map((text) => page.indexOf(text));
    expect(at).toEqual(at.toSorted((a, b) => a - b));
    expect(at[0]).toBe(0);
    expect(page).toContain("undersize  u·.csv");
    expect(page).not.toContain("\u001b");
  });

  test("keeps to its width, whatever it is", () => {
    for (const width of [60, 72, 80, 100]) {
      const page = deckPage(poor, head, { width, chart: [], legend: "" });
      for (const row of page.split("\n")) expect(row.length).toBeLessThanOrEqual(width);
    }
  });
});
