import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { effectiveRuns } from "./simulation/effectiveRuns.ts";
import { BLEND, MATERIALS } from "./simulation/materials.ts";
import { SMALL_HEADING, smallTables } from "./simulation/page.ts";
import { blindingRuns, healthyRuns } from "./simulation/tareRuns.ts";

test("docs/care-simulations.md ends with the small tables as this program makes them", () => {
  const page = readFileSync(new URL("../../docs/care-simulations.md", import.meta.url), "utf8");
  expect(page.slice(page.indexOf(SMALL_HEADING) - 1)).toBe(smallTables());
});

describe("a wrong sieve among routine tests", () => {
  test.each(MATERIALS)("of $name is found by tests from before, and no other blamed: +3 % and +6 %", (material) => {
    for (const error of [0.03, 0.06]) {
      const found = effectiveRuns({ material, knownBy: "tests before", error, where: "inside" }, 5, 99);
      expect(found.detected).toBeGreaterThanOrEqual(0.8);
      expect(found.others).toBeLessThanOrEqual(0.2);
      expect(Math.abs(found.biasPct)).toBeLessThan(0.5);
    }
  });

  test.each(MATERIALS)("of $name that is not there is seldom suspected", (material) => {
    const quiet = effectiveRuns({ material, knownBy: "tests before", error: 0, where: "inside" }, 5, 98);
    expect(quiet.others).toBe(0);
    expect(Math.abs(quiet.biasPct)).toBeLessThan(0.2);
  });

  test("of a blend is not looked for, for nobody could tell", () => {
    const blind = effectiveRuns({ material: BLEND, knownBy: "nominal", error: 0.06, where: "inside" }, 3, 97);
    expect(blind).toMatchObject({ detected: 0, others: 0 });
  });
});

describe("the empty masses", () => {
  test("of a sieve that slowly blinds over 30 tests tell it within a third of them", () => {
    for (const run of blindingRuns(4, 0.02, 250, 55)) {
      expect(run.told).toBe(true);
      expect(run.after).toBeLessThanOrEqual(10);
      expect(run.lastAs).toBe("caught");
    }
  });

  test("of a bench where the same sieve scatters by 25 mg alarm no more than of a quiet one", () => {
    const said = healthyRuns(1, 250, 78, 0.025);
    expect(said.alarms).toBeLessThanOrEqual(1);
    for (const run of blindingRuns(3, 0.02, 250, 56, 0.025)) expect(run.after).toBeLessThanOrEqual(12);
  });

  test("of 500 tests with nothing wrong say almost nothing but the slips of the hand", () => {
    const said = healthyRuns(1, 500, 77);
    expect(said.alarms).toBeLessThanOrEqual(1);
    expect(said.oddWithout).toBeLessThanOrEqual(2);
    expect(said.odd).toBeLessThanOrEqual(said.slips + 2);
  });
});
