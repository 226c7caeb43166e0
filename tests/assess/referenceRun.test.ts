import { describe, expect, test } from "vitest";
import { referenceRun } from "../../src/assess/referenceRun.ts";
import { referenceCheck } from "../../src/care/reference/referenceCheck.ts";
import type { ReferenceMaterial } from "../../src/record/care.ts";
import type { TestRecord } from "../../src/record/test.ts";
import { must, mustNot } from "../store/opened.ts";
import { product, testRecord } from "../store/records.ts";

const MATERIAL: ReferenceMaterial = {
  schema: "sievewright.referenceMaterial/1",
  code: "RM-1",
  name: "reference sand (invented)",
  certificate: { day: "2026-01-01", laboratory: "Tessel Hollow (invented)" },
  points: [
    { apertureUm: 2000, passingPct: 99, expandedPct: 1 },
    { apertureUm: 1000, passingPct: 60, expandedPct: 2 },
    { apertureUm: 355, passingPct: 5, expandedPct: 1 },
  ],
};

function run(change: Partial<TestRecord> = {}): TestRecord {
  const test = testRecord("T-1");
  const weighings = test.weighings.map((w, i) => ({
    ...w,
    fullG: (w.emptyG ?? 0) + 60,
    ...(i < 4 ? { serial: `S-${w.apertureUm}` } : {}),
  }));
  return { ...test, chargeG: 300, weighings, ...change };
}

describe("a recorded test as a run of a reference material", () => {
  test("asks of the sieves as they are, whatever apertures its product draws its curve over", () => {
    const over = { ...product, method: { ...product.method, apertures: "certified" as const } };
    expect(must(referenceRun(run({ product: over }), MATERIAL))).toEqual(must(referenceRun(run(), MATERIAL)));
  });

  test("tells what each sieve passed, its serial, and the uncertainty of the test's own budget", () => {
    const check = must(referenceRun(run(), MATERIAL));
    expect(check).toMatchObject({ did: "reference check", material: MATERIAL, testId: "T-1" });
    expect(check.found.map(({ apertureUm, serial }) => [apertureUm, serial])).toEqual([
      [1400, "S-1400"],
      [1000, "S-1000"],
      [710, "S-710"],
      [500, "S-500"],
    ]);
    expect(check.found.map(({ passingPct }) => Math.round(passingPct))).toEqual([80, 60, 40, 20]);
    for (const { expandedPct } of check.found) expect(expandedPct).toBeGreaterThan(0);
    const at1000 = referenceCheck(check).find(({ apertureUm }) => apertureUm === 1000);
    expect(at1000?.result).toBe("agrees");
  });

  test("lets neither the tolerance of the apertures nor the sampling of a lot excuse a sieve that is off", () => {
    const lot: TestRecord["product"] = { ...product, uncertainty: { sampling: { sdPctAt50: 5 } } };
    const check = must(referenceRun(run({ product: lot }), MATERIAL));
    expect(check).toEqual(must(referenceRun(run(), MATERIAL)));
    for (const { expandedPct = 100 } of check.found) expect(expandedPct).toBeLessThan(0.5);
    // The 1 mm sieve passes 60 %; certified are 64 +/- 2 %.
    const [first, second, ...rest] = MATERIAL.points;
    if (first === undefined || second === undefined) throw new Error("no points");
    const other = { ...MATERIAL, points: [first, { ...second, passingPct: 64 }, ...rest] };
    const found = referenceCheck(must(referenceRun(run(), other))).find(({ apertureUm }) => apertureUm === 1000);
    expect(found?.result).toBe("disagrees");
  });

  test("leaves the serial out where the test tells none", () => {
    const { weighings } = testRecord("T-1");
    const bare = run({ weighings: weighings.map((w) => ({ ...w, fullG: (w.emptyG ?? 0) + 60 })) });
    expect(must(referenceRun(bare, MATERIAL)).found.map(({ serial }) => serial)).toEqual(Array(4).fill(undefined));
  });

  test("an invalid test, or one not weighed to its end, can't serve", () => {
    const lossy = run({ chargeG: 400, product: { ...product, method: { maxLossPct: 0.1 } } });
    expect(mustNot(referenceRun(lossy, MATERIAL))).toMatch(/invalid: it proves nothing/);
    const unweighed = run({ weighings: run().weighings.map((w) => ({ ...w, fullG: null })) });
    expect(mustNot(referenceRun(unweighed, MATERIAL))).toMatch(/can't be assessed/);
  });
});
