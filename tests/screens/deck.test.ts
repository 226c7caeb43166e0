import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { accepted, refused } from "../../src/entry/outcome.ts";
import type { TestEntry } from "../../src/record/logEntry.ts";
import { deckOpened } from "../../src/screens/answers.ts";
import { monthRead } from "../../src/screens/log/logPlace.ts";
import { createShell } from "../../src/screens/shell.ts";
import { NOBODY_LISTED } from "../../src/screens/signOn/people.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import type { Store } from "../../src/store/store.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { NOTHING_KNOWN } from "../care/knownWorld.ts";
import { entryWith, NETS_G, STREAM_ENTRIES } from "./deckStreams.ts";
import { STATION, Stage } from "./stage.ts";

const ENTRIES = Object.values(STREAM_ENTRIES);

/** In the log, newest first: under-3, over-2, feed-1. */
function inLog(): Stage {
  const stage = new Stage().types("l");
  stage.app = monthRead(stage.app, "2026-11", ENTRIES.map(indexRowOf)).app;
  return stage;
}

const allMarked = () => inLog().presses("f4", "down", "f3", "down", "f2");

function inDeck(streams = STREAM_ENTRIES): Stage {
  const stage = allMarked();
  stage.app = deckOpened(stage.app, streams);
  return stage;
}

const figure = (stage: Stage, label: string): string => {
  const found = stage.lines().find((line) => line.startsWith(`  ${label} `));
  if (found === undefined) throw new Error(`no row ${label}`);
  return found.slice(24, 41).trim();
};

describe("marks in the log", () => {
  test("F2, F3 and F4 mark a row as feed, oversize and undersize, shown beside it and above", () => {
    const screen = allMarked().screen();
    expect(screen).toMatch(/^▸F .* feed-1 /m);
    expect(screen).toMatch(/^ O .* over-2 /m);
    expect(screen).toMatch(/^ U .* under-3 /m);
    expect(screen).toContain("F feed feed-1  O oversize over-2  U undersize under-3   F5 deck");
  });

  test("the Ctrl twins do the same where there are no function keys", () => {
    const stage = inLog().presses("ctrl+u", "down", "ctrl+o", "down", "ctrl+e", "ctrl+d");
    expect(stage.app.place).toEqual(allMarked().app.place);
    expect(stage.effects.at(-1)).toMatchObject({ do: "openDeck" });
  });

  test("a mark moves with its key, a row has one mark at most, and the same key takes it away", () => {
    const stage = inLog().presses("f2", "down", "f2");
    expect(stage.screen()).toMatch(/^▸F .* over-2 /m);
    expect(stage.screen()).not.toMatch(/F .* under-3 /);
    stage.presses("f3");
    expect(stage.screen()).toMatch(/^▸O .* over-2 /m);
    expect(stage.app.place).toMatchObject({ marks: { oversize: { number: 2 } } });
    expect(Object.keys((stage.app.place as { marks: object }).marks)).toEqual(["oversize"]);
    expect(stage.presses("f3").app.place).toMatchObject({ marks: {} });
    expect(stage.screen()).not.toContain("O oversize");
  });

  test("stay when the list is filtered, and when the record is looked at", () => {
    const stage = inLog().presses("f4").types("feed");
    expect(stage.screen()).toContain("U undersize under-3");
    expect(stage.presses("f2").app.place).toMatchObject({ marks: { feed: { number: 1 }, undersize: { number: 3 } } });
  });

  test("typing letters still filters: no letter marks anything", () => {
    const stage = inLog().types("fou");
    expect(stage.app.place).toMatchObject({ filter: "fou", marks: {} });
  });

  test("where nothing matches there is nothing to mark, and the operator is told", () =>
    expect(inLog().types("zzz").presses("f2").screen()).toContain("nothing matches"));

  test("the rows keep to 80 columns and still say what became of the product", () => {
    for (const line of allMarked().lines()) expect(columnsOf(line)).toBeLessThanOrEqual(80);
    expect(allMarked().screen()).toMatch(/feed-1 .* released/);
  });
});

describe("F5", () => {
  test("asks for the three rows as they were marked", () => {
    const stage = allMarked().presses("f5");
    expect(stage.effects.at(-1)).toMatchObject({
      do: "openDeck",
      rows: { feed: { lot: "feed-1" }, oversize: { lot: "over-2" }, undersize: { lot: "under-3" } },
    });
  });

  test("with marks missing says which, with their keys, and asks for nothing", () => {
    const stage = inLog().presses("f3", "f5");
    expect(stage.screen()).toContain("still to mark: feed (F2), undersize (F4)");
    expect(stage.effects.filter((effect) => effect.do === "openDeck")).toEqual([]);
  });

  test("whoever has left the log before the tests were read stays where they are", () => {
    const stage = new Stage();
    expect(deckOpened(stage.app, STREAM_ENTRIES)).toBe(stage.app);
  });
});

describe("the deck", () => {
  test("names its three tests and the three efficiencies by their own names", () => {
    const stage = inDeck();
    const screen = stage.screen();
    expect(screen).toMatch(/^ {2}feed +feed-1 +TH-0510/m);
    expect(screen).toMatch(/^ {2}undersize +under-3 +TH-0510/m);
    // From the grams: at 710 um, 80 + 150 + 200 g of the feed's 980 g should go over.
    expect(figure(stage, "oversize recovery")).toBe("77.5 % (77.5 %)");
    expect((78.4 + 135 + 120) / 430).toBeCloseTo(0.775, 3);
    expect(figure(stage, "undersize recovery")).toBe("90.1 % (90.1 %)");
    expect((176 + 220.8 + 99) / 550).toBeCloseTo(0.901, 3);
    expect(figure(stage, "overall effectiveness")).toBe("69.9 % (69.9 %)");
    expect(figure(stage, "recoveries at")).toBe("710 um");
    expect(screen).not.toMatch(/efficiency/i);
  });

  test("draws the partition curve with the cut size, and says what the signs and brackets mean", () => {
    const screen = inDeck().screen();
    expect(screen).toContain("class ●   cut size ◆");
    expect(screen).toMatch(/50┤ +╭─◆/);
    expect(screen).toContain("in brackets: with the feed that the two products add up to");
    expect(screen).toContain("710 um, the sieve nearest the cut size");
  });

  test("Down and Up take the recoveries at the sieves of the stack, from the coarsest, and back to the nearest", () => {
    const stage = inDeck().presses("down");
    expect(figure(stage, "recoveries at")).toBe("1.40 mm");
    expect(figure(stage, "oversize recovery")).toBe("98.0 % (98.0 %)");
    stage.presses("down");
    expect(figure(stage, "recoveries at")).toBe("1.00 mm");
    for (let i = 0; i < 9; i++) stage.presses("down");
    expect(figure(stage, "recoveries at")).toBe("355 um");
    expect(stage.screen()).not.toContain("nearest the cut size");
    for (let i = 0; i < 9; i++) stage.presses("up");
    expect(figure(stage, "recoveries at")).toBe("710 um");
  });

  test("v turns to the classes as a table and back", () => {
    const stage = inDeck().types("v");
    expect(stage.screen()).toMatch(/710 um +843 um +20\.4 +31\.0 +13\.5 +60\.0/);
    expect(stage.screen()).toMatch(/pan +251 um/);
    expect(stage.types("v").screen()).toContain("overall effectiveness");
  });

  test("a table too long for the window says that there is more, and is paged to its end", () => {
    const low = { columns: 60, rows: 16 };
    const stage = inDeck().types("v");
    stage.app = { ...stage.app, window: low };
    expect(stage.screen(low)).toContain("rows 1 to 9 of 11");
    expect(stage.screen(low)).not.toMatch(/pan +251 um/);
    expect(stage.presses("page down", "page down").screen(low)).toMatch(/pan +251 um/);
  });

  test("Esc leads back to the log with its marks", () => {
    const stage = inDeck().presses("escape");
    expect(stage.app.place).toMatchObject({ name: "log", marks: { feed: { number: 1 }, undersize: { number: 3 } } });
  });
});

describe("streams that make no deck", () => {
  const shortStack = (): TestEntry => {
    const { feed } = STREAM_ENTRIES;
    return { ...feed, test: { ...feed.test, weighings: feed.test.weighings.filter((w) => w.apertureUm !== 500) } };
  };

  test("other stacks: the place says which sieve is missing where, in full, and its keys refuse", () => {
    const stage = inDeck({ ...STREAM_ENTRIES, undersize: shortStack() });
    expect(stage.screen({ columns: 60, rows: 16 }).replace(/\s+/g, " ")).toContain(
      "! feed, oversize and undersize need the same stack: the undersize has no 500 um",
    );
    expect(stage.types("v").screen()).toContain("nothing to look into");
    expect(stage.presses("escape").app.place.name).toBe("log");
  });

  test("exchanged samples: the place says that they do not balance, and of whom to ask", () => {
    const { feed, oversize, undersize } = STREAM_ENTRIES;
    const screen = inDeck({ feed: oversize, oversize: feed, undersize }).screen().replace(/\s+/g, " ");
    expect(screen).toContain("do not balance");
    expect(screen).toContain("were the samples exchanged or taken at different times?");
    expect(screen).not.toContain("overall effectiveness");
  });

  test("a test that can't be assessed is named with its stream", () => {
    const { oversize } = STREAM_ENTRIES;
    const [first, ...rest] = oversize.test.weighings;
    const unweighed = { ...oversize, test: { ...oversize.test, weighings: [{ ...first!, fullG: null }, ...rest] } };
    expect(inDeck({ ...STREAM_ENTRIES, oversize: unweighed }).screen()).toContain(
      "! the oversize: the 1.40 mm sieve is not weighed yet",
    );
  });

  test("an invalid test is warned of, and the figures still stand", () => {
    const { feed } = STREAM_ENTRIES;
    const signed = { ...feed.test.signed, test: "invalid" as const };
    const screen = inDeck({ ...STREAM_ENTRIES, feed: { ...feed, test: { ...feed.test, signed } } }).screen();
    expect(screen).toContain("! the test of the feed is invalid: its grading proves nothing");
    expect(screen).toContain("overall effectiveness");
  });

  test("figures that can't be determined are dashes with their reason, said once", () => {
    const toOver = [0.99, 0.98, 0.97, 0.96, 0.95, 0.94];
    const stage = inDeck({
      feed: entryWith(1, "f", NETS_G.feed),
      oversize: entryWith(
        2,
        "o",
        NETS_G.feed.map((g, i) => g * (toOver[i] ?? 0)),
      ),
      undersize: entryWith(
        3,
        "u",
        NETS_G.feed.map((g, i) => g * (1 - (toOver[i] ?? 0))),
      ),
    });
    expect(figure(stage, "cut size d50")).toBe("–");
    const rows = stage.lines({ columns: 100, rows: 40 });
    expect(rows.filter((row) => /^ {2}below 251 um: even of the finest class 94 % go over/.test(row))).toHaveLength(1);
  });
});

test("whatever masses the three tests have, and the window: no frame too high or wide, no NaN", () =>
  fc.assert(
    fc.property(
      fc.array(fc.array(fc.integer({ min: 0, max: 200 }), { minLength: 6, maxLength: 6 }), {
        minLength: 3,
        maxLength: 3,
      }),
      fc.integer({ min: 60, max: 140 }),
      fc.integer({ min: 16, max: 45 }),
      fc.constantFrom("", "v"),
      ([feed = [], oversize = [], undersize = []], columns, rows, key) => {
        const streams = {
          feed: entryWith(1, "f", feed),
          oversize: entryWith(2, "o", oversize),
          undersize: entryWith(3, "u", undersize),
        };
        const lines = inDeck(streams).presses("down").types(key).lines({ columns, rows });
        expect(lines).toHaveLength(rows - 1);
        for (const line of lines) {
          expect(columnsOf(line)).toBeLessThanOrEqual(columns);
          expect(line).not.toMatch(/NaN|undefined|Infinity/);
        }
      },
    ),
    { numRuns: 60 },
  ));

describe("the shell", () => {
  const settled = () => new Promise((resolve) => setImmediate(resolve));

  async function shellWith(testEntry: Store["testEntry"]) {
    const store = {
      station: STATION,
      folder: "memory",
      readOnly: null,
      problems: [],
      drafts: () => [],
      session: null,
      operators: { ...NOBODY_LISTED, people: () => [] },
      indexMonths: () => ["2026-11"],
      atOpening: [],
      products: async () => ({ codes: [], revisions: () => [], inForce: () => null }),
      productDrafts: async () => [],
      programs: async () => [],
      matters: async () => [],
      care: { known: async () => NOTHING_KNOWN },
      events: async () => [],
      recentRows: async () => [],
      entriesOfDay: async () => [],
      indexRows: async () => ENTRIES.map(indexRowOf),
      monthWords: async () => new Map(),
      history: async (row: Parameters<Store["testEntry"]>[0]) => {
        const entry = await testEntry(row);
        return entry.ok ? { ok: true, value: { entry: entry.value, later: [] } } : entry;
      },
    } as unknown as Store;
    const now = () => "2026-11-24T03:12:00+01:00";
    const shell = createShell({ store, now, programVersion: "test", bell: () => undefined, clockMs: () => 0 });
    await settled();
    shell.press({ name: "char", text: "l" });
    await settled();
    for (const name of ["f4", "down", "f3", "down", "f2", "f5"] as const) shell.press({ name });
    await settled();
    return shell;
  }

  test("reads the three marked tests and opens the deck on them", async () => {
    const shell = await shellWith(async ({ number }) => {
      const entry = ENTRIES.find((one) => one.number === number);
      return entry ? accepted(entry) : refused("not here");
    });
    expect(shell.app().place).toMatchObject({ name: "deck", streams: STREAM_ENTRIES, cutAt: 0, view: "curve" });
  });

  test("stays in the log with the reason when one of them can't be read", async () => {
    const shell = await shellWith(async ({ number }) => {
      const entry = ENTRIES.find((one) => one.number === number);
      return entry && number !== 2 ? accepted(entry) : refused("2026-11-22 can't be read");
    });
    expect(shell.app()).toMatchObject({ place: { name: "log" }, message: "2026-11-22 can't be read" });
  });
});
