// Tests of the demo plant's filter sand, one after the other, on its registered set of sieves.
import { chanceFrom } from "../../src/demo/chance.ts";
import { demoProducts, demoPrograms } from "../../src/demo/library.ts";
import { inventTest } from "../../src/demo/oneTest.ts";
import { RECIPES } from "../../src/demo/recipes.ts";
import { demoCare, demoSet, demoSieves } from "../../src/demo/sieves.ts";
import { DEMO_STATION } from "../../src/demo/station.ts";
import type { NewEntry } from "../../src/record/logEntry.ts";
import { momentsIn } from "../../src/record/moment.ts";
import type { Product } from "../../src/record/product.ts";

const HOUR_MS = 3_600_000;
const APART_MS = 3 * HOUR_MS;
const [recipe] = RECIPES;
const products = demoProducts();
const found = products.find(({ code }) => code === recipe.code);
const [balance] = DEMO_STATION.balances;
if (found === undefined || balance === undefined) throw new Error("the demo plant has changed");
export const FILTER_SAND: Product = found;
export const FILTER_SET = demoSet(FILTER_SAND, products);
/** The demo sieve that blinds. */
export const BLINDING = { apertureUm: 500, serial: "S-0500-1" };

const moment = momentsIn(DEMO_STATION.timeZone);
const programs = demoPrograms();

export interface CareSeason {
  readonly tests: number;
  /** When the last of them ends. */
  readonly untilMs: number;
  readonly seed: number;
  /** What is caught in the mesh of the sieve that blinds at a test, counted from 1. */
  readonly caughtG?: (test: number) => number;
}

/** The register and its inspections, from before the first test. */
export function seasonRegister({ tests, untilMs }: CareSeason): readonly NewEntry[] {
  return demoCare(products, moment(untilMs - (tests + 2) * APART_MS), untilMs);
}

/** The tests, oldest first. */
export function* seasonTests({ tests, untilMs, seed, caughtG = () => 0 }: CareSeason): Generator<NewEntry> {
  const chance = chanceFrom(seed);
  for (let k = 1; k <= tests; k++) {
    const endMs = untilMs - (tests - k) * APART_MS;
    const test = inventTest(
      {
        recipe,
        product: FILTER_SAND,
        program: programs.find(({ code }) => code === FILTER_SAND.method?.program) ?? null,
        balance: balance ?? { id: "B1", capacityG: 3100, readabilityG: 0.01 },
        station: DEMO_STATION.station,
        by: "KO",
        lot: `47${String(Math.ceil(k / 3)).padStart(3, "0")}`,
        d50Um: recipe.d50Um * Math.exp(chance.normal(0, 0.02)),
        endMs,
        moment,
        programVersion: "test",
        set: FILTER_SET,
        sieves: demoSieves(FILTER_SAND, products, untilMs),
        caughtG: (um) => (um === BLINDING.apertureUm ? caughtG(k) : 0),
      },
      chance,
    );
    if (test) yield { kind: "test", at: moment(endMs), by: "KO", test };
  }
}
