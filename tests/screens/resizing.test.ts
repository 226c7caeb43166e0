import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { pressed } from "../../src/screens/dispatch.ts";
import { frameOf } from "../../src/screens/frame.ts";
import { textOf } from "../../src/screens/line.ts";
import type { App, Size } from "../../src/screens/place.ts";
import { PLACE_NAMES } from "../../src/screens/rooms.ts";
import type { Store } from "../../src/store/store.ts";
import type { NamedKey } from "../../src/terminal/keys.ts";
import { VISITS } from "./visits.ts";
import { demoPlant, Walker } from "./walking.ts";

const SIZES: readonly Size[] = [
  { columns: 80, rows: 24 },
  { columns: 100, rows: 30 },
  { columns: 160, rows: 50 },
  { columns: 60, rows: 16 },
];
const TOO_SMALL: Size = { columns: 50, rows: 12 };
const HIGH = 90;

const nameOf = ({ columns, rows }: Size): string => `${columns}x${rows}`;
const frameAt = (app: App, size: Size): string[] => frameOf(app, size).map(textOf);
const press = (app: App, name: NamedKey, window: Size): App => pressed({ ...app, window }, { name }, app.now).app;

const ordersOf = <T>(things: readonly T[]): T[][] =>
  things.length < 2
    ? [[...things]]
    : things.flatMap((first) => ordersOf(things.filter((one) => one !== first)).map((rest) => [first, ...rest]));

/** Whatever sizes the window had before, by way of one that is too small: it shows what it shows at once. */
function dependsOnBefore(app: App): string[] {
  const atOnce = new Map([...SIZES, TOO_SMALL].map((size) => [size, frameAt(app, size).join("\n")]));
  return ordersOf(SIZES).flatMap((order) =>
    order
      .flatMap((size, i) => (i % 2 === 0 ? [size] : [TOO_SMALL, size]))
      .filter((size) => frameAt(app, size).join("\n") !== atOnce.get(size))
      .map((size) => `drawn otherwise at ${nameOf(size)} in the order ${order.map(nameOf).join(", ")}`),
  );
}

/** What is typed, and what the mark points at. */
const inHand = (lines: readonly string[]): string[] =>
  lines.flatMap((line) => line.match(/▸ *(?:\d\S* )?\S+|\S+▌/gu) ?? []).map((text) => text.replace(/[… ]+/g, " "));

/** Gone from a window: the row of the mark, or what is being typed. */
const lostInHand = (app: App): string[] =>
  SIZES.flatMap((size) => {
    const shown = inHand(frameAt(app, size));
    return inHand(frameAt(app, { ...size, rows: HIGH }))
      .filter((text) => !shown.includes(text))
      .map((text) => `not in sight at ${nameOf(size)}: ${text}`);
  });

const WAYS: readonly (readonly [on: NamedKey, back: NamedKey])[] = [
  ["page down", "page up"],
  ["down", "up"],
];
const MANY = 80;

/** The states that a key leads through in one window, until it changes nothing more there. */
function along(app: App, key: NamedKey, window: Size): App[] {
  const states: App[] = [];
  let [there, shown] = [app, frameAt(app, window).join("\n")];
  for (let i = 0; i < MANY; i++) {
    there = press(there, key, window);
    const next = frameAt(there, window).join("\n");
    if (next === shown) break;
    states.push(there);
    shown = next;
  }
  return states;
}

/** Scrolled to its end in one window, a place must answer the first key back in any other one. */
function stuckAfter(app: App): string[] {
  return WAYS.flatMap(([on, back]) =>
    [SIZES[0], SIZES[3]].flatMap((from = TOO_SMALL) => {
      const end = along(app, on, from).at(-1);
      if (end === undefined) return [];
      const beyond = press(press(end, on, from), on, from);
      return SIZES.filter((to) => {
        const [top, bottom] = [frameAt(app, to), frameAt(beyond, to)].map((lines) => lines.join("\n"));
        return top !== bottom && frameAt(press(beyond, back, to), to).join("\n") === bottom;
      }).map((to) => `${back} does nothing at ${nameOf(to)} after ${on} at ${nameOf(from)}`);
    }),
  );
}

const DRAWN = /[┤┼╌╭╮╰╯●◆▴▾▲]/;
/** Points to where the rest is: another page, or the step before. */
const POINTED = /\bc (?:tells|says)|Esc/;
const wordsIn = (lines: readonly string[]): string[] => lines.join("\n").match(/\p{L}{4,}/gu) ?? [];
/** Without the keys, and without drawings with the row above each: these are left out where there is no room. */
const read = (lines: readonly string[]): readonly string[] =>
  lines
    .slice(
      0,
      lines.findLastIndex((line) => /^─+$/.test(line)),
    )
    .filter((line, row, all) => !DRAWN.test(line) && !DRAWN.test(all[row + 1] ?? ""));

/** Words that a high window shows and this one doesn't, however one scrolls. */
function outOfReach(app: App): string[] {
  return SIZES.flatMap((size) => {
    const seen = new Set(wordsIn(frameAt(app, size)));
    const unseen = () => wordsIn(read(frameAt(app, { ...size, rows: HIGH }))).filter((word) => !seen.has(word));
    if (unseen().length === 0 || frameAt(app, size).some((row) => POINTED.test(row))) return [];
    for (const key of WAYS.flat()) {
      for (const there of along(app, key, size)) for (const word of wordsIn(frameAt(there, size))) seen.add(word);
    }
    return unseen()
      .slice(0, 3)
      .map((word) => `can't be reached at ${nameOf(size)}: ${word}`);
  });
}

let plant: Store;
beforeAll(async () => {
  plant = await demoPlant(await mkdtemp(join(tmpdir(), "sievewright-")));
}, 120_000);
afterAll(async () => {
  await plant.close();
  await rm(plant.folder, { recursive: true, force: true });
});

describe.each(PLACE_NAMES)("the window of %s", (name) => {
  test("may change in any order: nothing is lost, out of reach, or depends on what it was before", async () => {
    const found: string[] = [];
    let stood = 0;
    const walker = new Walker(plant, (looked, what) => {
      const app = { ...looked, message: null };
      const faults = [
        ...(stood === 0 ? dependsOnBefore(app) : []),
        ...lostInHand(app),
        ...stuckAfter(app),
        ...outOfReach(app),
      ];
      found.push(...faults.map((fault) => `${app.place.name} ${what}: ${fault}`));
      stood += 1;
    });
    await walker.comes((app) => app.recent !== null && app.products.length > 0);
    await VISITS[name](walker);
    expect(stood).toBeGreaterThan(0);
    expect([...new Set(found)]).toEqual([]);
  });

  test("may be too small for a while: nothing that is pressed then changes anything", async () => {
    const walker = new Walker(plant, () => undefined);
    await walker.comes((app) => app.recent !== null && app.products.length > 0);
    await VISITS[name](walker);
    const { place, behind } = walker.app;
    walker.resizes(TOO_SMALL).types("7x").presses("enter", "escape", "down", "backspace", "f2");
    expect(walker.app.place).toBe(place);
    expect(walker.app.behind).toBe(behind);
    walker.resizes({ columns: 60, rows: 16 });
    expect(inHand(frameAt({ ...walker.app, message: null }, SIZES[3] ?? TOO_SMALL))).toEqual(
      inHand(frameAt({ ...walker.app, place, message: null }, SIZES[3] ?? TOO_SMALL)),
    );
  });
});
