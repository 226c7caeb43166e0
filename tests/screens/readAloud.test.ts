import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { sentenceOf, textOf } from "../../src/screens/line.ts";
import type { App } from "../../src/screens/place.ts";
import { readingOf } from "../../src/screens/readingFrame.ts";
import { PLACE_NAMES, roomOf } from "../../src/screens/rooms.ts";
import type { Store } from "../../src/store/store.ts";
import { VISITS } from "./visits.ts";
import { demoPlant, Walker } from "./walking.ts";

const DRAWN = /[─-╿▀-▟■-◿]/;
const WORDS = /\p{L}{2,}|\d/u;

/** Two words or figures in columns, with nothing between them that a voice would tell them apart by. */
const COLUMNS = /\S {2,}\S/;
/** A row of figures alone: whose they are is told by columns that nobody sees. */
const BARE = /^[\d.,;:±–%\s-]+$/;

/** What is wrong with what is read out of a place, in words. */
function faults(app: App): string[] {
  const rows = readingOf(app);
  const keys = rows.at(-1) ?? "";
  const lacking = roomOf(app.place)
    .keys(app)
    .filter(({ quiet, word }) => !quiet && !keys.includes(word));
  return [
    ...rows.filter((row) => DRAWN.test(row)).map((row) => `drawn: ${row}`),
    ...rows.filter((row) => !WORDS.test(row)).map((row) => `no words: ${row}`),
    ...rows.filter((row) => COLUMNS.test(row)).map((row) => `in columns: ${row}`),
    ...rows.filter((row) => BARE.test(row)).map((row) => `figures alone: ${row}`),
    ...rows.filter((row) => /…/.test(row)).map((row) => `cut: ${row}`),
    ...rows.filter((row, i) => row === rows[i - 1]).map((row) => `twice: ${row}`),
    ...(keys.startsWith("keys: ") ? [] : [`no keys at the end: ${keys}`]),
    ...lacking.map(({ word }) => `key not told: ${word}`),
  ];
}

const wordsIn = (text: string): string[] => text.match(/\p{L}{4,}/gu) ?? [];
const SIGNS_ONLY = /[┤┼╌╭╮╰╯●◆▴▾▲│┊]/;

/** Words in a wide window that the reading leaves out; drawings aside, and headings and legends, told with what they are of. */
function leftOut(app: App): string[] {
  const told = [...new Set(wordsIn(readingOf(app).join(" ")))];
  const shown = roomOf(app.place)
    .body({ ...app, big: false }, { columns: 240, rows: 30 })
    .filter((row) => sentenceOf(row) !== "")
    .map(textOf)
    .filter((row) => !SIGNS_ONLY.test(row));
  return wordsIn(shown.join(" "))
    .filter((word) => !told.some((one) => one.startsWith(word)))
    .map((word) => `not read: ${word}`);
}

let plant: Store;
beforeAll(async () => {
  plant = await demoPlant(await mkdtemp(join(tmpdir(), "sievewright-")));
}, 120_000);
afterAll(async () => {
  await plant.close();
  await rm(plant.folder, { recursive: true, force: true });
});

describe.each(PLACE_NAMES)("%s", (name) => {
  test("is read aloud as sentences, none of them drawn, in columns or cut, and nothing left out", async () => {
    const found: string[] = [];
    let stood = 0;
    const walker = new Walker(plant, (app, what) => {
      stood += 1;
      found.push(...[...faults(app), ...leftOut(app)].map((fault) => `${app.place.name} ${what}: ${fault}`));
    });
    await walker.comes((app) => app.recent !== null && app.products.length > 0);
    await VISITS[name](walker);
    expect(stood).toBeGreaterThan(0);
    expect([...new Set(found)]).toEqual([]);
  });
});
