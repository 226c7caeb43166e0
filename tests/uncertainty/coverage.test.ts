import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { expectNear } from "../grading/near.ts";
import { seeded } from "./simulation/chance.ts";
import { type Covered, coverageOf, firstOrder, pooledPct, telling } from "./simulation/coverage.ts";
import { LABORATORIES } from "./simulation/coveragePage.ts";
import { grainG, LOTS, truePassing } from "./simulation/materials.ts";
import { oneTest } from "./simulation/process.ts";

const page = readFileSync(join(import.meta.dirname, "../../docs/uncertainty-coverage.md"), "utf8");
const [certified, withinTolerance] = LABORATORIES;

const sectionOf = (title: string): string[] =>
  (page.split(/^## /m).find((part) => part.toLowerCase().startsWith(title)) ?? "").split("\n");

/** The pooled coverage that the page tells for one charge, in %. */
function toldPct(title: string, lot: string, chargeG: number): number {
  const row = sectionOf(title).find((line) => line.startsWith(`| ${lot} | ${chargeG} g |`));
  return Number(row?.split("|")[3]);
}

const TESTS = 120;
/** Numbers of one test move together: pooled coverages of so few tests scatter by about this. */
const SCATTER_PCT = 2;

const cells = LOTS.flatMap((lot) => lot.chargesG.map((chargeG) => ({ lot, chargeG, name: lot.name })));
/** Charges whose coverage is told to be above 97 %, with the reasons below it. */
const toldAbove = (page.split("\n").find((line) => line.startsWith(`- ${certified!.title}:`)) ?? "").split(
  " above 97 %",
)[0]!;

describe("the interval at k = 2 holds the truth at least 93 times in 100, and above 97 only where the page says so", () => {
  test.each(cells)("$name, $chargeG g, sieves with certificates", ({ lot, chargeG }) => {
    const told = toldPct(certified!.title, lot.name, chargeG);
    expect(told).toBeGreaterThan(93);
    if (!toldAbove.includes(`${lot.name} ${chargeG} g (`)) expect(told).toBeLessThanOrEqual(97);
    const found = coverageOf({ lot, chargeG, laboratory: certified!.laboratory }, firstOrder, TESTS, 1);
    expectNear(pooledPct(found), told, 0, SCATTER_PCT);
  });

  test("for the largest charge of each lot it is 93 to 97, as no reason to be above holds there", () => {
    for (const lot of LOTS) {
      const told = toldPct(certified!.title, lot.name, lot.chargesG.at(-1)!);
      expect(told).toBeGreaterThan(93);
      expect(told).toBeLessThan(97);
    }
  });

  test.each(cells.filter((_, i) => i % 3 === 1))(
    "$name, $chargeG g, any sieves: as the page tells",
    ({ lot, chargeG }) => {
      const told = toldPct(withinTolerance!.title, lot.name, chargeG);
      const found = coverageOf({ lot, chargeG, laboratory: withinTolerance!.laboratory }, firstOrder, TESTS, 2);
      expect(told).toBeGreaterThan(93);
      expectNear(pooledPct(found), told, 0, SCATTER_PCT);
    },
  );
});

test("u is what results scatter by about the truth", () => {
  const [, granules] = LOTS;
  const setting = { lot: granules!, chargeG: 200, laboratory: certified!.laboratory };
  const found: Covered[] = telling(coverageOf(setting, firstOrder, 400, 3));
  for (const { meanU, scatter, truth, name } of found) {
    const atEnd = name.startsWith("passing") && (truth < 3 || truth > 97);
    expectNear(scatter, meanU, atEnd ? 0.35 : 0.15);
  }
});

describe("the simulation itself", () => {
  test("is the lot: the mean of many tests on perfect sieves, nothing lost, is what the lot passes", () => {
    const [sand] = LOTS;
    const perfect = { sieves: "perfect", mostLostPct: 0, remainderPct: 0 } as const;
    const random = seeded(4);
    const found = Array.from({ length: 40 }, () => oneTest(sand!, 400, perfect, random));
    for (const [row, um] of sand!.sievesUm.entries()) {
      const mean = found.reduce((sum, grading) => sum + grading.rows[row]!.passingPct, 0) / 40;
      expectNear(mean, 100 * truePassing(sand!, um), 0, 0.08);
    }
  });

  test("loses what it says it loses and the closure shows it", () => {
    const [, granules] = LOTS;
    const losing = { sieves: "perfect", mostLostPct: 10, remainderPct: 0 } as const;
    const random = seeded(5);
    const losses = Array.from({ length: 60 }, () => oneTest(granules!, 200, losing, random).lossPct ?? 0);
    expect(Math.max(...losses)).toBeGreaterThan(3);
    expect(Math.max(...losses)).toBeLessThan(10.2);
  });

  test("weighs a sphere of 2 mm and 2650 kg/m3 as 11.1 mg", () => {
    const [sand] = LOTS;
    expectNear(grainG(sand!, 2000), 0.0111, 0.001);
  });
});
