import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { frameOf } from "../../src/screens/frame.ts";
import { GENERAL_KEYS } from "../../src/screens/general.ts";
import { keyText } from "../../src/screens/help/helpRoom.ts";
import { keyTablesOf } from "../../src/screens/help/keyTables.ts";
import { textOf } from "../../src/screens/line.ts";
import { type App, enter, type Size } from "../../src/screens/place.ts";
import { inPractice } from "../../src/screens/practice/practice.ts";
import { PLACE_NAMES, roomOf } from "../../src/screens/rooms.ts";
import { titleOf } from "../../src/screens/titleOf.ts";
import type { Store } from "../../src/store/store.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { VISITS } from "./visits.ts";
import { demoPlant, Walker } from "./walking.ts";

const SIZES: readonly Size[] = [
  { columns: 80, rows: 24 },
  { columns: 100, rows: 30 },
  { columns: 160, rows: 50 },
  { columns: 60, rows: 16 },
];
/** High enough for everything but the longest lists; wide enough that nothing is cut to the side. */
const HIGH = 90;
const VAST: readonly Size[] = [240, 160, 100, 80, 60].map((columns) => ({ columns, rows: HIGH }));

/** The frames of one state, each drawn once. */
function framesOf(app: App): (size: Size) => readonly string[] {
  const drawn = new Map<string, readonly string[]>();
  return (size) => {
    const key = `${size.columns}x${size.rows}`;
    const frame = drawn.get(key) ?? frameOf(app, size).map(textOf);
    drawn.set(key, frame);
    return frame;
  };
}
type Frames = ReturnType<typeof framesOf>;

const wordsIn = (lines: readonly string[]): string[] =>
  lines.flatMap((line) => line.match(/[\p{L}\p{N}][\p{L}\p{N}'.,:/-]*[\p{L}\p{N}]/gu) ?? []);

/** A row that says that there is more: it begins with an ellipsis, or tells how many. */
const SAYS_MORE = /^\s*…|\bmore\b|\d+ (?:of|to) \d+/;

/** Cut to the side: the last word of a row that reaches the right edge, where no window with room for all has that word. */
function cutAtEdge(frames: Frames, size: Size): string[] {
  const edge = frames(size).filter(
    (line) => columnsOf(line.trimEnd()) >= size.columns - 1 && /[\p{L}\p{N}]$/u.test(line.trimEnd()),
  );
  if (edge.length === 0) return [];
  const whole = new Set(VAST.flatMap((vast) => wordsIn(frames(vast))));
  return edge.flatMap((line) => wordsIn([line]).slice(-1)).filter((word) => !whole.has(word));
}

/** A drawing is left out as a whole where there is no room for it, its legend with it. */
const DRAWN = /[┤┼╌╭╮╰╯●◆▴▾▲]/;

/** Title, body and message, and what stands below them: in a low window big digits have no rule between. */
function parted(lines: readonly string[]): { readonly upper: readonly string[]; readonly footer: readonly string[] } {
  const rule = lines.findLastIndex((line) => /^─+$/.test(line));
  const footed = rule < 2 ? lines.length - 1 : rule + 1;
  return { upper: lines.slice(0, footed), footer: lines.slice(footed) };
}

/** Cut below: words that the same window shows where it is higher, while no row here says that there is more. */
function cutBelow(frames: Frames, size: Size): string[] {
  const { upper } = parted(frames(size));
  if (upper.some((line) => SAYS_MORE.test(line))) return [];
  const here = new Set(wordsIn(upper));
  const rows = parted(frames({ ...size, rows: HIGH })).upper.filter((line) => !DRAWN.test(line));
  return wordsIn(rows).filter((word) => /^\p{L}{4,}$/u.test(word) && !here.has(word));
}

/** From this height on a place shows all of its keys; in a lower window as many as one row has, and that there are more. */
const ALL_KEYS_ROWS = 24;

/** What the keys at the bottom lack. */
function footerFaults(app: App, lines: readonly string[], { rows }: Size): string[] {
  const footer = parted(lines).footer.join(" ");
  const keys = roomOf(app.place)
    .keys(app)
    .filter((key) => !key.quiet);
  const lacks = ({ keys: [first = ""], word }: (typeof keys)[number]) =>
    !footer.includes(
      word === "page" ? "Page up/down" : first === "up" ? `Up/Down ${word}` : `${keyText(first)} ${word}`,
    );
  const lacking = keys.filter(lacks);
  const back = keys.find(({ keys: names }) => names.includes("escape"));
  return [
    ...(/ (?:\?|F1) help$/.test(footer.trimEnd()) ? [] : [`footer without help: ${footer}`]),
    ...(back && lacks(back) ? [`footer without the way back: ${footer}`] : []),
    ...(lacking.length === 0 || (rows < ALL_KEYS_ROWS && footer.includes("…"))
      ? []
      : [`footer lacks ${lacking.map(({ word }) => word).join(", ")}: ${footer}`]),
  ];
}

/** What is wrong with a place at a size, in words. */
function faults(app: App, frames: Frames, size: Size): string[] {
  const lines = frames(size);
  const { mark, left } = titleOf(app);
  const title = (lines[0] ?? "")
    .trim()
    .slice(mark ? mark.text.trim().length : 0)
    .trim();
  const name = left.split(/[ …]/)[0] ?? "";
  return [
    ...(lines.length > size.rows - 1 ? [`${lines.length} lines`] : []),
    ...lines.filter((line) => columnsOf(line) > size.columns).map((line) => `too wide: ${line}`),
    ...(title.startsWith(name) && title !== "" ? [] : [`no title: ${title}`]),
    ...footerFaults(app, lines, size),
    ...cutAtEdge(frames, size).map((word) => `cut at the edge: ${word}`),
    ...cutBelow(frames, size)
      .slice(0, 3)
      .map((word) => `not there, and nothing says that there is more: ${word}`),
  ];
}

/** What is wrong with the keys of a place: twice the same, or on neither footer nor help page. */
function keyFaults(app: App): string[] {
  const keys = roomOf(app.place).keys(app);
  const names = keys.flatMap((binding) => binding.keys);
  const twice = names.filter((name, at) => names.indexOf(name) !== at);
  const asked = app.place.name === "help" ? app : enter(app, { name: "help", of: app.place });
  const page = frameOf(asked, { columns: 200, rows: 400 }).map(textOf).join("\n");
  const untold =
    app.place.name === "help"
      ? []
      : [...keys, ...GENERAL_KEYS].filter(
          ({ keys: [first = ""], help }) => !page.includes(keyText(first)) || !page.includes(help),
        );
  const tabled = keyTablesOf(app.place.name).flatMap((table) => table.keys.map(({ help }) => help));
  const untabled = inPractice(app) ? [] : keys.filter(({ help }) => !tabled.includes(help));
  const idle =
    roomOf(app.place).about.join("").trim() === "" && app.place.name !== "help" ? ["no word on what it is for"] : [];
  return [
    ...twice.map((key) => `${key} twice`),
    ...untabled.map(({ word }) => `${word} is not in the table of all keys`),
    ...untold.map(({ word }) => `${word} is not on the help page`),
    ...idle,
  ];
}

let plant: Store;
beforeAll(async () => {
  plant = await demoPlant(await mkdtemp(join(tmpdir(), "sievewright-")));
}, 120_000);
afterAll(async () => {
  await plant.close();
  await rm(plant.folder, { recursive: true, force: true });
});

test("there is a visit to every place, and to no other", () => {
  expect(Object.keys(VISITS).toSorted()).toEqual(PLACE_NAMES.toSorted());
});

describe.each(PLACE_NAMES)("%s", (name) => {
  test("fits every size, cuts nothing unsaid, tells all of its keys", async () => {
    const found: string[] = [];
    let stood = 0;
    const walker = new Walker(plant, (app, what) => {
      if (app.place.name === name || (name === "sign" && app.place.name === "run")) stood += 1;
      found.push(...keyFaults(app).map((fault) => `${what}: ${fault}`));
      const frames = framesOf(app);
      const at = (size: Size) => `${app.place.name} ${what} at ${size.columns}x${size.rows}`;
      for (const size of SIZES) found.push(...faults(app, frames, size).map((fault) => `${at(size)}: ${fault}`));
    });
    await walker.comes((app) => app.recent !== null && app.products.length > 0);
    await VISITS[name](walker);
    expect(stood).toBeGreaterThan(0);
    expect([...new Set(found)]).toEqual([]);
  });
});
