import type { NewEntry } from "../record/logEntry.ts";
import { momentsIn } from "../record/moment.ts";
import type { Product } from "../record/product.ts";
import type { Program } from "../record/program.ts";
import type { Station } from "../record/station.ts";
import { type Chance, chanceFrom } from "./chance.ts";
import { inventTest } from "./oneTest.ts";
import { RECIPES, type Recipe } from "./recipes.ts";
import { demoSet, demoSieves } from "./sieves.ts";

export interface Season {
  readonly station: Station;
  readonly products: readonly Product[];
  readonly programs: readonly Program[];
  readonly tests: number;
  readonly seed: number;
  /** When the last test was signed. */
  readonly untilMs: number;
  readonly programVersion: string;
}

/** The sieve that nobody brushes in the last part of the season: grains stay in its mesh. */
const BLINDING = { product: "TH-0510", apertureUm: 500, lastPart: 0.35, mostG: 0.6 };

/** Grows evenly over the last part of the season, with so many tests still to come. */
const caughtG = (slot: number, tests: number): number =>
  BLINDING.mostG * Math.max(0, 1 - slot / (BLINDING.lastPart * tests));

const HOUR_MS = 3_600_000;
/** A season is three months; more tests than that holds come closer together, down to a full station's rate. */
const SEASON_MS = 88 * 24 * HOUR_MS;
const WIDEST_MS = 3.5 * HOUR_MS;
const CLOSEST_MS = 0.85 * HOUR_MS;
const LOT_EVERY_TESTS = 3;
const LETTERS = "ABCDEF";

/** Three shifts, three signatures: by the hour of the day at the station. */
const signer = (station: Station, at: string): string => {
  const shift = Math.floor(((Number(at.slice(11, 13)) + 18) % 24) / 8);
  return station.operators[shift % Math.max(1, station.operators.length)]?.initials ?? "XX";
};

/** Each product as often as its recipe says. */
const DRAWER = RECIPES.flatMap((recipe) => Array<Recipe>(recipe.often).fill(recipe));

/** A product's d50 wanders about its recipe and is drawn back to it, as a plant that is looked after does. */
function wandered(recipe: Recipe, before: number, chance: Chance): number {
  return 0.92 * before + chance.normal(0, recipe.wander * 0.4);
}

const lotName = (recipe: Recipe, count: number): string => {
  const number = Math.floor(count / LOT_EVERY_TESTS);
  return `${recipe.lotPrefix}${String(10 + Math.floor(number / LETTERS.length))}-${LETTERS[number % LETTERS.length]}`;
};

const betweenTestsMs = (tests: number) => Math.min(WIDEST_MS, Math.max(CLOSEST_MS, SEASON_MS / Math.max(1, tests)));

/** A moment before the first test of a season. */
export const seasonBegins = (tests: number, untilMs: number): number => untilMs - (tests + 1) * betweenTestsMs(tests);

/** Invented tests, oldest first, the same for the same season: entries ready to be recorded. */
export function* inventSeason(season: Season): Generator<NewEntry> {
  const { station, tests, untilMs } = season;
  const [balance] = station.balances;
  if (!balance) return;
  const chance = chanceFrom(season.seed);
  const apartMs = betweenTestsMs(tests);
  const moment = momentsIn(station.timeZone);
  const drift = new Map<string, number>();
  const counts = new Map<string, number>();
  let made = 0;
  for (let slot = tests - 1; slot >= 0; slot--) {
    const endMs = untilMs - Math.round((slot + 0.3 * chance.even()) * apartMs);
    const recipe = chance.pick([RECIPES[0], ...DRAWER.slice(1)]);
    const product = season.products.find((p) => p.code === recipe.code);
    if (!product) continue;
    const off = wandered(recipe, drift.get(recipe.code) ?? 0, chance);
    const count = counts.get(recipe.code) ?? 0;
    drift.set(recipe.code, off);
    counts.set(recipe.code, count + 1);
    const at = moment(endMs);
    const by = signer(station, at);
    const program = season.programs.find((p) => p.code === product.method?.program) ?? null;
    const d50Um = recipe.d50Um * Math.exp(off);
    const lot = lotName(recipe, count);
    const test = inventTest(
      {
        recipe,
        product,
        program,
        balance,
        station: station.station,
        by,
        lot,
        d50Um,
        endMs,
        moment,
        programVersion: season.programVersion,
        set: demoSet(product, season.products),
        sieves: demoSieves(product, season.products, untilMs),
        caughtG: (um) => (product.code === BLINDING.product && um === BLINDING.apertureUm ? caughtG(slot, tests) : 0),
      },
      chance,
    );
    if (test) yield { kind: "test", at, by, test };
    made++;
  }
  if (made < tests) throw new Error("the invented season came out short");
}
