import { describe, expect, test } from "vitest";
import type { IndexRow } from "../../src/record/indexRow.ts";
import { keyText } from "../../src/screens/help/helpRoom.ts";
import type { App, Effect } from "../../src/screens/place.ts";
import { roomOf } from "../../src/screens/rooms.ts";
import { MOST_CURVES } from "../../src/screens/trend/chartKeys.ts";
import type { TrendEffect, TrendPlace } from "../../src/screens/trend/places.ts";
import { trendTaken } from "../../src/screens/trend/reaching.ts";
import type { TrendRead } from "../../src/store/trendReading.ts";
import { adjusted, frozen, rowAt, rowsOf, SAND, STEADY } from "../shift/trendWorld.ts";
import { anApp, Stage } from "./stage.ts";

type ReadTrend = Extract<TrendEffect, { do: "readTrend" }>;
const TALL = { columns: 120, rows: 40 };

const app = (change: Partial<App> = {}): App =>
  anApp({ products: [SAND], revisions: [SAND], recent: [rowAt(39)], ...change });

const asks = (stage: Stage): ReadTrend[] =>
  stage.effects.filter((effect: Effect): effect is ReadTrend => effect.do === "readTrend");

const answered = (stage: Stage, read: TrendRead, line = "Dryer 1"): Stage => {
  const asked = asks(stage).at(-1);
  if (!asked) throw new Error("nothing was asked for");
  const { app: next, effects } = trendTaken(stage.app, { asked, line, read });
  stage.app = next;
  stage.effects.push(...effects);
  return stage;
};

const found = (rows: readonly IndexRow[], change: Partial<TrendRead> = {}): TrendRead => ({
  rows,
  events: [],
  frozen: [],
  older: false,
  ...change,
});

/** In the trend of the filter sand's d50, its tests read. */
const inTrend = (values: readonly number[] = STEADY, change: Partial<TrendRead> = {}, of = app()): Stage =>
  answered(new Stage(of).types("t"), found(rowsOf(values), change));

function placeOf(stage: Stage): TrendPlace {
  const { place } = stage.app;
  if (place.name !== "trend") throw new Error(`in ${place.name}`);
  return place;
}
const opened = (stage: Stage) => stage.effects.flatMap((effect) => (effect.do === "open" ? [effect.row.number] : []));

describe("into the trend", () => {
  test("by t on the bench: the product tested last, on its line; at most 200 tests are asked for", () => {
    const stage = new Stage(app()).types("t");
    expect(asks(stage)).toEqual([
      {
        do: "readTrend",
        product: "TH-0510",
        line: "Dryer 1",
        reach: { tests: 200, period: { since: null, until: null } },
      },
    ]);
    expect(stage.screen()).toContain("reading the log ...");
  });

  test("with the mark on a test: of its product and line", () => {
    const of = app({ recent: [rowAt(39), rowAt(38, { line: "Mill 2" })] });
    const stage = new Stage(of).presses("down", "down").types("t");
    expect(asks(stage)[0]).toMatchObject({ line: "Mill 2" });
  });

  test("from the log with the test in hand", () => {
    const stage = new Stage(app()).types("l");
    const { place } = stage.app;
    if (place.name !== "log") throw new Error("not in the log");
    stage.app = { ...stage.app, place: { ...place, rows: [rowAt(5)], reading: false, months: [] } };
    answered(stage.presses("f6"), found(rowsOf(STEADY)));
    expect(stage.screen()).toMatch(/▲ .* no\. 6 /);
  });

  test("from a product's page, on the line where it was tested last", () => {
    const stage = new Stage(app()).types("p").presses("enter").types("t");
    expect(asks(stage)[0]).toMatchObject({ product: "TH-0510", line: null });
    expect(answered(stage, found(rowsOf(STEADY)), "Mill 2").screen()).toContain("trend · TH-0510 · Mill 2 · d50");
  });

  test("not without a product", () => {
    const stage = new Stage(app({ products: [], revisions: [], recent: [] })).types("t");
    expect(asks(stage)).toEqual([]);
    expect(stage.screen()).toContain("no product is in force");
  });

  test("tests that arrive while help is open are there afterwards", () => {
    const stage = new Stage(app()).types("t").types("?");
    answered(stage, found(rowsOf(STEADY)));
    expect(stage.presses("escape").screen()).toContain("40 of 40 tests");
  });

  test("tests of a trend that was left are not taken for another one", () => {
    const stage = new Stage(app()).types("t");
    const [asked] = asks(stage);
    if (!asked) throw new Error("nothing was asked for");
    stage.app = trendTaken(stage.app, {
      asked: { product: "TH-MAS", line: "Dryer 1" },
      line: "Dryer 1",
      read: found(rowsOf(STEADY)),
    }).app;
    expect(stage.screen()).toContain("reading the log ...");
  });

  test("Esc leads back to the bench", () => expect(inTrend().presses("escape").app.place.name).toBe("bench"));
});

describe("the chart", () => {
  test.each([{ columns: 80, rows: 24 }, TALL, { columns: 60, rows: 16 }])(
    "fits $columns x $rows and says what it is of",
    (size) => {
      const lines = inTrend(STEADY, { events: [adjusted(20)] }).lines(size);
      expect(lines.length).toBeLessThanOrEqual(size.rows - 1);
      for (const line of lines) expect([...line].length).toBeLessThanOrEqual(size.columns);
      expect(lines[0]).toContain("trend · TH-0510 · Dryer 1 · d50");
    },
  );

  test("tells centre, control limits and the product's limits apart by sign and by name", () => {
    const screen = inTrend().screen();
    for (const words of ["centre 7", "upper 7", "lower 7", "max 790", "═══", "╌╌╌", "test ●  signal ◆"])
      expect(screen).toContain(words);
    expect(screen).toContain("d50: 690 um to 790 um");
    expect(screen).toContain("no signal ✓");
  });

  test("says at a point what is wrong with it, in words", () => {
    const screen = inTrend([...STEADY, 900]).screen(TALL);
    expect(screen).toContain("SIGNAL ◆");
    expect(screen).toMatch(/▲ .* no\. 41 {2}lot 4471-B {2}d50 900 um/);
    expect(screen).toContain("◆ 1 beyond 3 sigma, above the centre line");
  });

  test("has its limits' origin, capability and drift below", () => {
    const screen = inTrend().screen();
    expect(screen).toMatch(/centre 74\d um, control limits 7\d\d um to 7\d\d um \(from 25 tests/);
    expect(screen).toMatch(/Cp [\d.]+ {2}Cpk [\d.]+ \(/);
    expect(screen).toContain("no drift: chance alone does this");
  });

  test("warns of a drift, with the tests that are left", () => {
    const screen = inTrend(STEADY.map((um, i) => um - 10 + i))
      .screen(TALL)
      .replace(/\s+/g, " ");
    expect(screen).toMatch(/! drift: rising [\d.]+ um a test \(p .*\); the limit 790 um is reached in about \d+ tests/);
  });

  test("marks changes of the line and says what was changed before the test in hand", () => {
    const stage = inTrend(STEADY, { events: [adjusted(20)] });
    expect(stage.screen(TALL)).toContain("┊ 11-01 19:00 Dryer 1, deck: 0.71 put in for 0.75, by SB");
    expect(stage.screen(TALL).match(/┊/g)?.length ?? 0).toBeGreaterThan(5);
    expect(stage.presses("home").screen(TALL)).not.toContain("0.71 put in");
  });

  test("without limits yet says so, and still draws", () => {
    const screen = inTrend(STEADY.slice(0, 4)).screen();
    expect(screen).toContain("no control limits yet");
    expect(screen).toContain("no control limits: limits need 8 tests, there are 4");
  });

  test("of a product without tests, or without this figure, says why", () => {
    expect(inTrend([]).screen()).toContain("d50 of TH-0510 on Dryer 1: no test yet");
    const bare = rowsOf(STEADY).map((row) => ({ ...row, values: {} }));
    const stage = answered(new Stage(app()).types("t"), found(bare));
    expect(stage.screen(TALL)).toContain("none of 40 tests: it could not be determined in this test");
  });

  test("turns through values, moving range, weighted average and sums", () => {
    const stage = inTrend();
    expect(stage.types("v").screen()).toContain("· moving range ·");
    expect(stage.types("v").screen()).toContain("weighted average (EWMA)");
    expect(stage.types("v").screen(TALL)).toContain("cumulative sums (CUSUM)");
    expect(stage.types("v").screen()).toContain("· values ·");
  });
});

describe("the test in hand", () => {
  const inHand = (stage: Stage) => Number(/▲ .* no\. (\d+) /.exec(stage.screen())?.[1]);

  test("is the newest at first; Left and Right go along, Home and End to the ends of the window", () => {
    const stage = inTrend();
    expect(inHand(stage)).toBe(40);
    expect(inHand(stage.presses("left", "left"))).toBe(38);
    expect(inHand(stage.presses("right"))).toBe(39);
    expect(inHand(stage.presses("home"))).toBe(1);
    expect(inHand(stage.presses("end"))).toBe(40);
  });

  test("never leaves the tests there are, and says so", () => {
    expect(inTrend().presses("right").screen()).toContain("this is the newest test");
    expect(inTrend().presses("home", "left").screen()).toContain("no earlier test has been read");
  });

  test("is opened by Enter", () => expect(opened(inTrend().presses("left", "enter"))).toEqual([39]));

  test("stays in hand and in sight when the window is made closer or moved", () => {
    const stage = inTrend();
    for (let i = 0; i < 30; i++) stage.presses("left");
    expect(inHand(stage.types("++"))).toBe(10);
    expect(stage.lines().some((line) => line.includes("▲────") || line.includes("────▲"))).toBe(true);
  });

  test("is left out of the reckoning by x, and taken in again; it stays in sight", () => {
    const stage = inTrend([...STEADY.slice(0, 10), 900, ...STEADY.slice(10)]);
    for (let i = 0; i < 30; i++) stage.presses("left");
    const centre = () => /centre (\d+) um/.exec(stage.screen(TALL))?.[1];
    const before = centre();
    expect(stage.types("x").screen(TALL)).toContain("left out of the reckoning");
    expect(stage.screen(TALL)).toContain("900 um");
    expect(Number(centre())).toBeLessThan(Number(before));
    expect(stage.types("x").screen(TALL)).not.toContain("left out");
    expect(centre()).toBe(before);
  });
});

describe("the window", () => {
  const shown = (stage: Stage) => Number(/(\d+) of \d+ tests/.exec(stage.screen(TALL))?.[1]);

  test("has fewer tests by + and more by -", () => {
    const stage = inTrend();
    expect(shown(stage)).toBe(40);
    expect(shown(stage.types("+"))).toBe(20);
    expect(shown(stage.types("+"))).toBe(10);
    expect(shown(stage.types("-"))).toBe(20);
  });

  test("goes by shifts, days, weeks and months, by z", () => {
    const stage = inTrend();
    const units = Array.from({ length: 5 }, () => stage.types("z").screen(TALL));
    for (const [i, words] of ["3 shifts: ", "3 days: ", "2 weeks: ", "1 month: "].entries())
      expect(units[i]).toContain(words);
    expect(units[4]).toMatch(/values · 40 of 40 tests/);
  });

  const LONG = Array.from({ length: 200 }, (_, i) => 740 + 10 * Math.sin(i * 2.399));

  test("reads older tests only when it reaches beyond what has been read", () => {
    const stage = inTrend(LONG, { older: true }).types("+--");
    expect(shown(stage)).toBe(100);
    expect(shown(stage.types("-"))).toBe(200);
    expect(asks(stage)).toHaveLength(1);
    stage.types("-");
    expect(asks(stage)[1]?.reach).toMatchObject({ tests: 400 });
    expect(stage.screen(TALL)).toContain("reading more ...");
  });

  test("made wider while tests are on their way is read that far once they are there", () => {
    const read = found(rowsOf(LONG), { older: true });
    const stage = answered(new Stage(app()).types("t"), read).types("----").types("zzzz").types("--");
    expect(asks(stage)).toHaveLength(2);
    answered(stage, read);
    expect(asks(stage).at(-1)?.reach).toEqual({
      tests: null,
      period: { since: { day: "2026-09-01" }, until: null },
    });
  });

  test("asks no second time for what brought no more", () => {
    const read = found(rowsOf(LONG), { older: true });
    const stage = answered(new Stage(app()).types("t"), read).types("---");
    expect(asks(stage)).toHaveLength(2);
    answered(stage, read);
    expect(asks(stage)).toHaveLength(2);
    expect(stage.screen(TALL)).toContain("200 of 200 tests");
    const seldom = answered(new Stage(app()).types("t"), found(rowsOf(STEADY), { older: true })).types("--");
    expect(asks(seldom)).toHaveLength(1);
  });

  test("reads on at the oldest test, and asks once while it waits", () => {
    const stage = inTrend(LONG, { older: true }).types("--").presses("home", "left", "left");
    expect(asks(stage)).toHaveLength(2);
    expect(asks(stage)[1]?.reach).toMatchObject({ tests: 400 });
  });
});

describe("the figure", () => {
  test("is turned by Up and Down, limits first", () => {
    const stage = inTrend();
    expect(stage.presses("down").screen()).toContain("· Uniformity Cu");
    expect(stage.presses("up", "up").screen()).toContain("· passing 500 um");
    expect(stage.types("[").screen()).toContain("· coarser than 710 um");
    expect(stage.types("[").screen()).not.toContain("· coarser than 710 um");
  });

  test("is chosen from a list that narrows as one types", () => {
    const stage = inTrend().types("f");
    expect(stage.screen()).toMatch(/coarser than 710 um +limited +at most 70 %/);
    stage.types("d90");
    expect(stage.screen()).toContain("▸  d90");
    expect(stage.presses("enter").screen()).toContain("trend · TH-0510 · Dryer 1 · d90");
  });

  test("stays as it was when the list is left: first the filter goes, then the list", () => {
    const stage = inTrend().types("f").types("d90").presses("escape");
    expect(stage.screen()).toContain("choose a figure");
    expect(stage.presses("escape").screen()).toContain("· d50");
  });

  test("that nothing matches is not chosen", () =>
    expect(inTrend().types("f").types("zzz").presses("enter").screen()).toContain("nothing matches"));
});

describe("product and line", () => {
  test("are chosen from what was tested lately, then from all there is", () => {
    const stage = inTrend().types("p");
    expect(stage.screen()).toMatch(/▸ {2}TH-0510 +Dryer 1 +1 of the latest tests/);
    expect(stage.screen()).toMatch(/TH-0510 +Screen deck B +not tested lately/);
    stage.types("deck").presses("enter");
    expect(asks(stage).at(-1)).toMatchObject({ product: "TH-0510", line: "Screen deck B" });
    expect(stage.screen()).toContain("trend · TH-0510 · Screen deck B");
  });
});

describe("rules", () => {
  const high = [...STEADY.slice(0, 30), ...Array<number>(9).fill(748)];

  test("are told by what they see, and turned off by Enter", () => {
    const stage = inTrend(high);
    expect(stage.screen(TALL)).toContain("8 on one side");
    stage.types("r").presses("down", "down", "down");
    expect(stage.screen()).toMatch(/▸ {2}on +8 on one side/);
    stage.presses("enter");
    expect(stage.screen()).toMatch(/▸ {2}off +8 on one side/);
    expect(stage.presses("escape").screen(TALL)).not.toContain("8 on one side");
  });

  test("come in sets: w and e", () => {
    const stage = inTrend().types("r").types("e");
    expect(stage.screen()).toMatch(/on +9 on one side/);
    expect(stage.screen()).toMatch(/off +8 on one side/);
    expect(stage.types("w").screen()).toMatch(/on +8 on one side/);
  });

  test("hold whether limits start anew and whether frozen ones are used", () => {
    const stage = inTrend(STEADY, { frozen: [frozen()], events: [adjusted(20)] });
    const { switches } = placeOf(stage);
    stage.types("r");
    for (let i = 0; i < 10; i++) stage.presses("down");
    stage.types(" ").presses("down").types(" ").presses("down", "down");
    expect(placeOf(stage).switches).toMatchObject({ restarts: false, useFrozen: false });
    expect(placeOf(stage).switches.rules).toEqual(switches.rules);
    expect(stage.presses("escape").screen(TALL)).not.toContain("frozen");
  });
});

describe("keeping limits", () => {
  const frozenBy = (stage: Stage) =>
    stage.effects.flatMap((effect) => (effect.do === "freezeLimits" ? [effect.entry] : []));

  test("asks why, then who signs, and freezes what the chart shows", () => {
    const stage = inTrend().types("k");
    expect(stage.screen()).toMatch(/d50: centre 74\d um, control limits/);
    stage.enters("agreed with quality").presses("enter");
    const [entry] = frozenBy(stage);
    expect(entry).toMatchObject({
      kind: "limits frozen",
      by: "KO",
      product: "TH-0510",
      line: "Dryer 1",
      on: "percentileUm@50",
      chart: "individuals",
      replicates: 1,
      tests: 25,
      first: { testId: "T0", number: 1 },
      last: { testId: "T24", number: 25 },
      leftOut: [],
      reason: "agreed with quality",
    });
    expect(entry?.centre).toBeCloseTo(STEADY.slice(0, 25).reduce((sum, um) => sum + um, 0) / 25, 9);
  });

  test("takes along what was left out", () => {
    const stage = inTrend();
    for (let i = 0; i < 34; i++) stage.presses("left");
    stage.types("x").types("k").enters("without the spilled one").presses("enter");
    expect(frozenBy(stage)[0]).toMatchObject({ leftOut: ["T5"], last: { testId: "T25" } });
  });

  test("wants a reason, and Esc goes back a step, recording nothing", () => {
    const stage = inTrend().types("k").presses("enter");
    expect(stage.screen()).toContain("say why these limits are to hold");
    stage.enters("agreed").presses("escape");
    expect(stage.screen()).toContain("agreed▌");
    expect(stage.presses("escape").screen()).toContain("40 of 40 tests");
    expect(frozenBy(stage)).toEqual([]);
  });

  test("is refused where there are no limits, where they are frozen already, and where nothing can be recorded", () => {
    expect(inTrend(STEADY.slice(0, 4)).types("k").screen()).toContain("limits need 8 tests, there are 4");
    expect(
      inTrend(STEADY, { frozen: [frozen()] })
        .types("k")
        .screen(),
    ).toContain("these limits are frozen already");
    expect(
      inTrend(STEADY, {}, app({ readOnly: "another window writes" }))
        .types("k")
        .screen(),
    ).toContain("another window writes");
  });

  test("of frozen limits shows by whom, since when and why", () =>
    expect(
      inTrend(STEADY, { frozen: [frozen()] })
        .screen(TALL)
        .replace(/\s+/g, " "),
    ).toContain("centre 700 um, control limits 685 um to 715 um (frozen 2026-11-02 by SB: agreed with quality)"));
});

describe("curves over one another", () => {
  const screenOf = (stage: Stage) => stage.screen({ columns: 120, rows: 40 });

  test("are the last six, the newest as a full line with its letter", () => {
    const screen = screenOf(inTrend().types("o"));
    expect(screen).toContain("passing % of the last 6 tests");
    expect(screen).toMatch(/f is no\. 40, PASS ✓/);
    expect(screen).toContain("▸ f 11-02 14:00 4471-B");
    expect(screen).toMatch(/▾[\s\S]*▴/);
  });

  test("become more and fewer, ten at most and five at least", () => {
    const stage = inTrend().types("o").types("------");
    expect(screenOf(stage)).toContain(`the last ${MOST_CURVES} tests`);
    expect(screenOf(stage.types("++++++++"))).toContain("the last 5 tests");
  });

  test("are those that were marked, until they are unmarked", () => {
    const stage = inTrend().types("s").presses("left", "left").types(" ").types("o");
    expect(screenOf(stage)).toContain("the 2 marked tests");
    expect(screenOf(stage)).toMatch(/b is no\. 40/);
    expect(stage.types("-").screen()).toContain("the marked tests are shown");
    expect(screenOf(stage.types("u"))).toContain("the last 6 tests");
  });

  test("are chosen by Up and Down and opened by Enter", () => {
    const stage = inTrend().types("o").presses("up", "up");
    expect(screenOf(stage)).toMatch(/d is no\. 38/);
    expect(opened(stage.presses("down", "enter"))).toEqual([39]);
    expect(stage.presses("escape").screen()).toContain("40 of 40 tests");
  });

  test("leave out what doesn't count", () => {
    const rows = rowsOf(STEADY).map((row, i) => (i === 39 ? { ...row, test: "invalid" as const } : row));
    const stage = answered(new Stage(app()).types("t"), found(rows)).types("o");
    expect(screenOf(stage)).toMatch(/f is no\. 39/);
  });

  test("more than ten are not marked", () => {
    const stage = inTrend();
    for (let i = 0; i < MOST_CURVES; i++) stage.types("s").presses("left");
    expect(stage.types("s").screen()).toContain("10 tests at most");
    expect(placeOf(stage).marked).toHaveLength(MOST_CURVES);
  });
});

describe("all limits small", () => {
  const rising = STEADY.map((um, i) => um - 10 + i);

  test("show which one drifts, and when it comes to its limit", () => {
    const screen = inTrend(rising).types("m").screen(TALL);
    expect(screen).toMatch(/d50 +[▁-█]+ +7\d\d um ✓ +◆? +↑ rises, 790 um in ~\d+/);
    expect(screen).toMatch(/passing 500 um .* – no drift/);
    expect(screen).not.toContain("d10");
  });

  test("say in full what the mark points at, and Enter opens its chart", () => {
    const stage = inTrend(rising).types("m").presses("down", "down");
    expect(stage.screen().replace(/\s+/g, " ")).toContain("d50: rising");
    expect(stage.presses("down", "enter").screen()).toContain("· Uniformity Cu");
  });

  test("say that there are none where the product has none", () => {
    const { envelope: _envelope, values: _values, ...bare } = SAND;
    const stage = inTrend(STEADY, {}, app({ products: [bare], revisions: [bare] }));
    expect(stage.types("m").screen()).toContain("this product has no limits");
  });

  test("show a newest value beyond its limit as such", () =>
    expect(
      inTrend([...STEADY, 800])
        .types("m")
        .screen(TALL),
    ).toMatch(/d50 .* 800 um ✗/));
});

describe("in words", () => {
  test("has limits of every stretch, capability with its warnings, drift, changes and tests left aside", () => {
    const rows = rowsOf(STEADY).map((row, i) => (i === 3 ? { ...row, test: "invalid" as const } : row));
    const stage = answered(new Stage(app()).types("t"), found(rows, { events: [adjusted(20)] })).types("c");
    const screen = stage.screen(TALL).replace(/\s+/g, " ");
    for (const words of [
      "after deck: 0.71 put in for 0.75: centre",
      "drawn from 20 tests, fewer than about 50: see the bounds",
      "no drift: chance alone does this",
      "11-01 19:00 deck: 0.71 put in for 0.75, by SB",
      "the test is invalid: it says nothing of the product",
    ])
      expect(screen).toContain(words);
    expect(stage.presses("escape").screen()).toContain("39 of 39 tests");
  });

  test("scrolls to its end and no farther", () => {
    const stage = inTrend(STEADY, { events: [adjusted(20), adjusted(25)] }).types("c");
    const top = stage.screen();
    expect(stage.presses("down").screen()).not.toBe(top);
    for (let i = 0; i < 60; i++) stage.presses("page down");
    expect(stage.screen()).toContain("none");
    for (let i = 0; i < 60; i++) stage.presses("up");
    expect(stage.screen()).toBe(top);
  });
});

describe("every page of the trend", () => {
  test.each(["", "o", "m", "f", "p", "r", "c", "k"])("by %j has its help, and no key with two meanings", (keys) => {
    const stage = inTrend().types(keys);
    const room = roomOf(stage.app.place);
    const bound = room.keys(stage.app);
    const names = bound.flatMap((binding) => binding.keys);
    expect(new Set(names).size).toBe(names.length);
    const squeezed = (text: string) => text.replace(/\s+/g, " ");
    const help = squeezed(stage.presses("f1").screen({ columns: 160, rows: 90 }));
    for (const text of [...room.about, ...bound.map((binding) => binding.help)]) expect(help).toContain(text);
    for (const { keys: own } of bound) expect(help).toContain(own.map(keyText).join(", ").slice(0, 18).trim());
  });

  test.each(["", "o", "m", "f", "p", "r", "c", "k"])("by %j is never too large for its screen", (keys) => {
    for (const size of [
      { columns: 60, rows: 16 },
      { columns: 80, rows: 24 },
      { columns: 200, rows: 50 },
    ]) {
      const lines = inTrend([...STEADY, 900], { events: [adjusted(20)] })
        .types(keys)
        .lines(size);
      expect(lines.length).toBeLessThanOrEqual(size.rows - 1);
      for (const line of lines) expect([...line].length).toBeLessThanOrEqual(size.columns);
    }
  });
});
