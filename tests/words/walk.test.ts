import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { frameOf } from "../../src/screens/frame.ts";
import { textOf } from "../../src/screens/line.ts";
import type { App, Size } from "../../src/screens/place.ts";
import { PLACE_NAMES } from "../../src/screens/rooms.ts";
import type { Store } from "../../src/store/store.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import german from "../../src/words/catalogues/de.ts";
import spanish from "../../src/words/catalogues/es.ts";
import { mannerOf } from "../../src/words/manner.ts";
import { fetchLanguage } from "../../src/words/speaking.ts";
import { wordsInCode } from "../../tools/wordsInCode.mjs";
import { VISITS } from "../screens/visits.ts";
import { demoPlant, Walker } from "../screens/walking.ts";

const SIZES: readonly Size[] = [
  { columns: 80, rows: 24 },
  { columns: 120, rows: 40 },
  { columns: 60, rows: 16 },
];

/** Wide enough that words are whole. */
const WIDE = 120;

const wordsOf = (text: string): readonly string[] => text.match(/\p{L}{4,}/gu) ?? [];
const LOWER = /^\p{Ll}+$/u;

/** What people wrote: names and reasons of the demo plant, which no language changes. */
const WRITTEN =
  /^(name|lot|line|lines|samplingPoint|samplingPoints|remark|reason|note|text|plant|certifiedBy|lab|location|made|approvedBy|what|why|by)$/;
function written(of: unknown, found = new Set<string>(), field = ""): Set<string> {
  if (typeof of === "string" && WRITTEN.test(field)) for (const word of wordsOf(of)) found.add(word);
  else if (Array.isArray(of)) for (const one of of) written(one, found, field);
  else if (of !== null && typeof of === "object")
    for (const [name, inner] of Object.entries(of)) written(inner, found, name);
  return found;
}

/** Words that only English has: in its messages, and in no translation. */
function englishOnly(messages: Readonly<Record<string, string>>): ReadonlySet<string> {
  const english = new Set(wordsInCode().flatMap(({ kind, message }) => (kind === "message" ? wordsOf(message) : [])));
  const said = new Set(Object.values(messages).flatMap(wordsOf));
  return new Set([...english].filter((word) => LOWER.test(word) && !said.has(word)));
}

/** What is typed stands behind the sign of the cursor's cell. */
const TYPED = /\S[^:]*▌/;

/** Words of a row that are English and that nobody wrote. */
function englishIn(row: string, app: App, english: ReadonlySet<string>): readonly string[] {
  const theirs = written(app);
  return TYPED.test(row) ? [] : wordsOf(row).filter((word) => english.has(word) && !theirs.has(word));
}

let plant: Store;
beforeAll(async () => {
  plant = await demoPlant(await mkdtemp(join(tmpdir(), "sievewright-")));
  await fetchLanguage("de");
  await fetchLanguage("es");
}, 120_000);
afterAll(async () => {
  await plant.close();
  await rm(plant.folder, { recursive: true, force: true });
});

describe.each([
  ["de", german],
  ["es", spanish],
] as const)("in the language %s", (language, messages) => {
  const left = englishOnly(messages);
  const manner = mannerOf({}, language);

  const faultsAt = (app: App, size: Size): readonly string[] => {
    const rows = frameOf({ ...app, message: null, manner }, size).map(textOf);
    const wide = rows.filter((text) => columnsOf(text) > size.columns).map((row) => `too wide: ${row}`);
    const whole = size.columns === WIDE ? rows : [];
    return [...wide, ...whole.flatMap((row) => englishIn(row, app, left).map((word) => `${word}: ${row.trim()}`))];
  };

  test.each(PLACE_NAMES)("%s fits every size and speaks no English", async (name) => {
    const found: string[] = [];
    const walker = new Walker(plant, (app) => found.push(...SIZES.flatMap((size) => faultsAt(app, size))));
    await walker.comes((app) => app.recent !== null && app.products.length > 0);
    await VISITS[name](walker);
    expect([...new Set(found)]).toEqual([]);
  });
});
