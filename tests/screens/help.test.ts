import { describe, expect, test } from "vitest";
import type { Product } from "../../src/record/product.ts";
import type { PLACES as TOLD } from "../../src/report/glossary/places.ts";
import { termOf } from "../../src/report/glossary/terms.ts";
import { standardsOf } from "../../src/report/standards/standards.ts";
import { GENERAL_KEYS } from "../../src/screens/general.ts";
import { keyText } from "../../src/screens/help/helpRoom.ts";
import { toldOf } from "../../src/screens/help/sections.ts";
import type { Place } from "../../src/screens/place.ts";
import { roomOf } from "../../src/screens/rooms.ts";
import { FILTER_SAND, Hands, SETTING } from "../run/hands.ts";
import { anApp, recordedEntry, Stage } from "./stage.ts";

const run = (hands: Hands): Place => ({ name: "run", run: hands.run, view: 0, writing: null });
const PLACES: readonly (readonly [string, Place])[] = [
  ["bench", { name: "bench", at: 0 }],
  ["set out", run(new Hands())],
  ["weigh empty", run(new Hands().setsOut())],
  ["result", run(new Hands().tests())],
  ["sign", { name: "sign", run: new Hands().tests().run, field: "disposition", typed: "" }],
  ["log", { name: "log", filter: "", at: 0, rows: [], months: [], reading: false, marks: {} }],
  ["record", { name: "record", entry: recordedEntry(), later: [], view: 0 }],
  ["values", { name: "values", test: new Hands().tests().run.draft, at: 0 }],
  ["balance", { name: "balance", readG: [], typed: "" }],
  ["products", { name: "products", filter: "", at: 0 }],
  ["product", { name: "product", product: FILTER_SAND }],
];
const WIDE = { columns: 160, rows: 400 };
const SIZES = [
  { columns: 80, rows: 24 },
  { columns: 60, rows: 16 },
];
const at = (place: Place) => new Stage(anApp({ place, behind: [{ name: "bench", at: 0 }] })).presses("f1");

describe("help", () => {
  test.each(PLACES)("of %s tells what the place is for and what each of its keys does", (_name, place) => {
    const screen = at(place).screen(WIDE);
    const room = roomOf(place);
    const words = (text: string) => text.replace(/\s+/g, " ").trim();
    for (const text of room.about) expect(words(screen)).toContain(words(text));
    const keys = room.keys(anApp({ place }));
    expect(keys.length).toBeGreaterThan(0);
    for (const { keys: names, help } of [...keys, ...GENERAL_KEYS]) {
      expect(words(screen)).toContain(words(help));
      expect(screen).toContain(names.map(keyText).join(", ").slice(0, 18));
    }
  });

  test.each(PLACES)("of %s gives each key one meaning", (_name, place) => {
    const names = roomOf(place)
      .keys(anApp({ place }))
      .flatMap((binding) => binding.keys);
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  });

  test.each(PLACES)("of %s goes back there by Esc, with nothing lost", (_name, place) => {
    expect(at(place).presses("escape").app.place).toEqual(place);
  });

  test("scrolls line by line and ends at its last lines", () => {
    const stage = at({ name: "bench", at: 0 });
    const size = { columns: 100, rows: 16 };
    const first = stage.screen(size);
    expect(stage.presses("down").screen(size)).not.toBe(first);
    expect(stage.presses("up").screen(size)).toBe(first);
    expect(stage.presses("up").screen(size)).toBe(first);
    for (let i = 0; i < 100; i++) stage.presses("down");
    expect(stage.screen(size)).toContain("your site's rules and licensed practice come first");
  });

  test("asked for twice stays one step away", () => {
    const stage = at({ name: "bench", at: 0 }).presses("f1");
    expect(stage.app.behind).toHaveLength(2);
    expect(stage.presses("escape").app.place.name).toBe("bench");
  });

  test("says that dust, noise and weight come first, and in which units things are told", () => {
    const screen = at({ name: "bench", at: 0 }).screen(WIDE);
    expect(screen).toContain("sizes in um below 1 mm and mm above; masses in g; percent by mass");
    expect(screen).toContain("dust, noise, heavy stacks");
  });
});

describe.each(SIZES)("a help page of $columns columns and $rows rows", (size) => {
  test.each(PLACES)("of %s shows every line by Page down, none cut, and says where one is", (_name, place) => {
    const stage = at(place);
    stage.app = { ...stage.app, window: size };
    const whole = stage.lines({ ...size, rows: 900 }).slice(2, -3);
    const seen = new Set<string>();
    for (let pages = 0; pages < 60; pages++) {
      const body = stage.lines(size).slice(2, -2);
      for (const text of body) seen.add(text.trimEnd());
      expect(body.join("\n")).toMatch(/rows \d+ to \d+ of \d+: Page up, Page down/);
      stage.presses("page down");
    }
    expect(whole.map((text) => text.trimEnd()).filter((text) => !seen.has(text))).toEqual([]);
    expect(whole.filter((text) => text.trimEnd().endsWith("…"))).toEqual([]);
  });
});

test.each(PLACES)("t and s on the help page of %s lead to its terms and to its sources", (_name, place) => {
  const stage = at(place);
  expect(stage.types("t").screen()).toContain("terms used here");
  expect(stage.types("s").screen()).toContain("where its figures come from");
  expect(stage.types("k").lines()).toEqual(at(place).lines());
});

test.each(PLACES)("the help page of %s tells each of its terms and where its figures come from", (_name, place) => {
  const screen = at(place).screen({ columns: 200, rows: 900 });
  const { terms, standards } = toldOf(place.name as keyof typeof TOLD);
  for (const id of terms) expect(screen).toContain(termOf(id).meaning);
  const general = standards.filter((id) => id !== "procedure");
  for (const id of general) for (const row of standardsOf(id).rows.slice(0, 3)) expect(screen).toContain(row.figure);
});

describe("where a test's own validity comes from", () => {
  const sources = (product: Product) =>
    at(run(new Hands(SETTING, product).tests()))
      .screen({ columns: 200, rows: 900 })
      .split("whether a test is valid")[1];

  test("is the rule set that its product names, no other", () => {
    const named = {
      ...FILTER_SAND,
      method: { ...FILTER_SAND.method, procedure: { ruleSet: "en-933-1-2012" as const } },
    };
    expect(sources(named)).toContain("EN 933-1, 2012: ");
    expect(sources(named)).toContain("loss or gain at most 0.3 % [the product]");
    expect(sources(named)).toContain("each sieve passes less than 1 % of what it holds in 1 min [EN 933-1 (recalled");
    expect(sources(named)).not.toContain("AASHTO");
  });

  test("is the product itself where it names none", () => {
    expect(sources(FILTER_SAND)).toContain("TH-0510: loss or gain at most 0.3 % [the product]");
    const { method: _method, ...bare } = FILTER_SAND;
    expect(sources(bare)).toContain("no limits of its own, and no rule set named");
    expect(sources(FILTER_SAND)).not.toContain("EN 933-1");
  });
});

describe("keys by their names", () => {
  test.each([
    ["escape", "Esc"],
    ["enter", "Enter"],
    ["page down", "Page down"],
    ["ctrl+r", "Ctrl+r"],
    ["f4", "F4"],
    ["n", "n"],
  ])("%s reads %s", (key, text) => expect(keyText(key)).toBe(text));
});

test("no line of a help page is cut at 80 columns", () => {
  const lines = new Stage().presses("f1").lines({ columns: 80, rows: 70 });
  expect(lines.slice(2, -3).filter((text) => text.includes("…"))).toEqual([]);
  expect(lines.join(" ").replace(/\s+/g, " ")).toContain(
    "the curve shows how the product tested last has been running.",
  );
});
