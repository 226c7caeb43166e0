import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { budgetOf } from "../../../src/uncertainty/budget.ts";
import type { Conditions } from "../../../src/uncertainty/conditions.ts";
import { crossTestRule } from "../../../src/uncertainty/planning/crossTest.ts";
import { type PlannedLimit, planFor } from "../../../src/uncertainty/planning/planFor.ts";
import type { PlanLine, PlannedLine } from "../../../src/uncertainty/planning/planLine.ts";
import { largestPortion, portionsFor } from "../../../src/uncertainty/planning/portions.ts";
import { practicalG } from "../../../src/uncertainty/planning/practical.ts";
import { expectNear } from "../../grading/near.ts";
import { passingSure, sand, testOf } from "../situations.ts";

const limit = (apertureUm: number, min: number | null, max: number | null): PlannedLimit => ({
  on: { kind: "passingPct", apertureUm },
  min,
  max,
});

function plannedLine(line: PlanLine | undefined): PlannedLine {
  if (!line?.planned) throw new Error(line?.reason ?? "no line");
  return line;
}

const grainsOnly: Conditions = { material: { particleDensityKgM3: 2650 } };
const gravel = (times: number) => testOf(`8000:${6 * times} 4000:${30 * times} 2000:${40 * times} pan:${24 * times}`);

describe("a plan", () => {
  test("names the least charge with which a typical result is inside by its guard band, and that charge does it", () => {
    const plan = planFor({ limits: [limit(8000, 92, 100)], typical: gravel(3) }, grainsOnly, 0.05);
    const line = plannedLine(plan.lines[0]);
    expect(line.verdict).toBe("larger charge");
    const sure = passingSure(budgetOf(gravel(line.chargeG! / 100), grainsOnly, []), 8000);
    expect(plan.z * sure.u).toBeLessThanOrEqual(2.0001);
    expect(plan.z * sure.u).toBeGreaterThan(1.9);
    expect(plan.chargeG).toBe(line.chargeG);
  });

  test("z is the one-sided quantile of the risk; a smaller risk asks for more", () => {
    const chargeAt = (risk: number) =>
      planFor({ limits: [limit(8000, 92, 100)], typical: gravel(3) }, grainsOnly, risk);
    expectNear(chargeAt(0.05).z, 1.6448536269514722, 1e-12);
    expect(chargeAt(0.01).chargeG).toBeGreaterThan(chargeAt(0.05).chargeG);
  });

  test("a limit that the present charge decides asks for no more", () => {
    const plan = planFor({ limits: [limit(4000, 10, 90)], typical: gravel(30) }, grainsOnly);
    const line = plannedLine(plan.lines[0]);
    expect(line.verdict).toBe("decidable");
    expect(line.chargeG).toBeLessThan(3000);
    expect(plan.chargeG).toBe(3000);
  });

  test("the charge of the test is the charge that was weighed, where it was", () => {
    const typical = testOf("8000:18 4000:90 2000:120 pan:72", { chargeG: 301 });
    expect(planFor({ limits: [], typical }, grainsOnly).presentG).toBe(301);
  });

  test("a limit narrower than the method can see is told so, beside the published rule", () => {
    const plan = planFor({ limits: [limit(710, 65, 67.5)], typical: sand() }, { apertures: {} });
    const line = plannedLine(plan.lines[0]);
    expect(line).toMatchObject({ verdict: "too narrow", chargeG: null, portions: null });
    expect(line.crossTest).toMatchObject({ tooNarrow: true, widthPct: 2.5 });
    expectNear(line.crossTest!.tolerancePct, 0.3 * Math.sqrt(line.typical * (100 - line.typical)), 1e-12);
  });

  test("the published rule is not asked of one-sided limits and of sizes", () => {
    const limits = [
      limit(710, 40, null),
      { on: { kind: "percentileUm", passingPct: 50 } as const, min: 300, max: 900 },
    ];
    const [oneSided, size] = planFor({ limits, typical: sand() }, grainsOnly).lines.map(plannedLine);
    expect(oneSided!.crossTest).toMatchObject({ widthPct: null, tooNarrow: false });
    expect(size!.crossTest).toBeNull();
  });

  test("a typical result outside its limit cannot be planned for", () =>
    expect(plannedLine(planFor({ limits: [limit(710, 80, 100)], typical: sand() }, grainsOnly).lines[0])).toMatchObject(
      {
        verdict: "typical lies outside",
        chargeG: null,
      },
    ));

  test("no charge is enough where what stays the same is already too much for this side", () => {
    const typical = sand();
    const { value, u } = passingSure(budgetOf(typical, { apertures: {} }, []), 710);
    const plan = planFor({ limits: [limit(710, value - u, 100)], typical }, { apertures: {} });
    expect(plannedLine(plan.lines[0])).toMatchObject({ verdict: "no charge is enough", chargeG: null });
  });

  test("a limit that the typical test cannot show is a reason", () => {
    const plan = planFor({ limits: [limit(600, 40, 50)], typical: sand() }, grainsOnly);
    expect(plan.lines[0]).toMatchObject({ planned: false, name: "passingPct@600" });
  });

  test("portions follow from the load limits: no sieve above what it may hold", () => {
    const loads = [
      { apertureUm: 8000, maxG: 400 },
      { apertureUm: 4000, maxG: 300 },
      { apertureUm: 2000, maxG: 200 },
    ];
    const plan = planFor({ limits: [limit(8000, 92, 100)], typical: gravel(3), loads }, grainsOnly);
    expect(plan.largestPortion).toEqual({ portionG: 500, fullestUm: 2000 });
    expect(plan.portions).toBe(Math.ceil(plan.chargeG / 500));
    expect(0.4 * (plan.chargeG / plan.portions)).toBeLessThanOrEqual(200);
  });
});

describe("what a plan counts", () => {
  test("an end at 100 % is no limit: nothing lies beyond it, and no guard band belongs to it", () => {
    const fine = testOf("8000:1 4000:99 2000:100 pan:100");
    const line = plannedLine(planFor({ limits: [limit(8000, 95, 100)], typical: fine }, grainsOnly).lines[0]);
    const open = plannedLine(planFor({ limits: [limit(8000, 95, null)], typical: fine }, grainsOnly).lines[0]);
    expect(line).toEqual({ ...open, max: 100 });
    expectNear(line.wantedU, (line.typical - 95) / 1.6448536269514722, 1e-9);
  });

  test("a limit that excludes nothing is a reason", () =>
    expect(planFor({ limits: [limit(8000, 0, 100)], typical: gravel(3) }, grainsOnly).lines[0]).toMatchObject({
      planned: false,
      reason: "nothing can lie outside this limit",
    }));

  test("every portion is weighed anew: a balance that decides asks for more where the charge is split", () => {
    const balance = { balance: { readabilityG: 1 } };
    const limits = [limit(4000, 63.7, 66)];
    const loads = [{ apertureUm: 2000, maxG: 80 }];
    const whole = plannedLine(planFor({ limits, typical: gravel(3) }, balance).lines[0]);
    const split = plannedLine(planFor({ limits, typical: gravel(3), loads }, balance).lines[0]);
    expect(whole.portions).toBe(1);
    expect(split.portions).toBeGreaterThan(1);
    expect(split.leastG!).toBeGreaterThan(1.2 * whole.leastG!);
  });

  test("where the weighings of so many portions outgrow what they bring no charge is enough", () => {
    const loads = [{ apertureUm: 2000, maxG: 10 }];
    const limits = [limit(4000, 63.9, 66)];
    const plan = planFor({ limits, typical: gravel(3), loads, portions: 1 }, { balance: { readabilityG: 1 } });
    const line = plannedLine(plan.lines[0]);
    expect(line).toMatchObject({ verdict: "no charge is enough", chargeG: null });
    expect(line.uFloor).toBeLessThan(line.wantedU);
  });

  test("the charge named decides when it is really sieved in those portions", () => {
    const balance = { balance: { readabilityG: 1 }, material: { particleDensityKgM3: 2650 } };
    const loads = [{ apertureUm: 2000, maxG: 400 }];
    const limits = [limit(4000, 60, 66)];
    const line = plannedLine(planFor({ limits, typical: gravel(3), loads }, balance).lines[0]);
    const times = line.chargeG! / 300;
    const inPortions = { ...balance, balance: { readabilityG: 1, portions: line.portions! } };
    const { u } = passingSure(budgetOf(gravel(3 * times), inPortions, []), 4000);
    expect(u).toBeLessThanOrEqual(line.wantedU);
    expect(u).toBeGreaterThan(0.9 * line.wantedU);
  });

  test("portions that overload a sieve are told, with how many it takes", () => {
    const loads = [{ apertureUm: 2000, maxG: 60 }];
    const plan = planFor({ limits: [], typical: gravel(3), loads, portions: 1 }, grainsOnly);
    expect(plan).toMatchObject({ presentPortions: 1, portionsNeeded: 2 });
    expect(planFor({ limits: [], typical: gravel(3), loads }, grainsOnly)).toMatchObject({ presentPortions: 2 });
  });

  test("few grains are counted, now and with the charge that is needed", () => {
    const line = plannedLine(planFor({ limits: [limit(8000, 92, 100)], typical: gravel(3) }, grainsOnly).lines[0]);
    expect(line.grains).toMatchObject({ side: "coarser" });
    expectNear(line.grains!.needed / line.grains!.grains, line.chargeG! / 300, 1e-9);
  });

  test("what stays however large the charge is named, and how wide the limit would have to be", () => {
    const line = plannedLine(planFor({ limits: [limit(710, 65, 67.5)], typical: sand() }, { apertures: {} }).lines[0]);
    expect(line.floorFrom).toEqual({ id: "apertures", label: "Apertures" });
    const wide = limit(710, line.typical - line.leastWidth! / 2 - 0.01, line.typical + line.leastWidth! / 2 + 0.01);
    expect(plannedLine(planFor({ limits: [wide], typical: sand() }, { apertures: {} }).lines[0]).verdict).toBe(
      "decidable",
    );
  });
});

test("a practical charge is at most 5 % more and never less", () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-3, max: 1e7, noNaN: true }), (chargeG) => {
      const shown = practicalG(chargeG);
      expect(shown).toBeGreaterThanOrEqual(chargeG * (1 - 1e-8));
      expect(shown).toBeLessThanOrEqual(1.0501 * chargeG);
    }),
  );
  expect([0, 100, 100.1, 20.4, 999].map(practicalG)).toEqual([0, 100, 105, 21, 1000]);
});

describe("portions", () => {
  test("without a limit on any loaded sieve one portion does", () => {
    expect(largestPortion(gravel(1), [{ apertureUm: 500, maxG: 10 }])).toBeNull();
    expect(portionsFor(5000, null)).toBe(1);
  });

  test("a charge of exactly the largest portion is one portion", () => {
    const largest = { portionG: 500, fullestUm: 2000 };
    expect([400, 500, 500.1, 1000, 1001].map((g) => portionsFor(g, largest))).toEqual([1, 1, 2, 2, 3]);
  });
});

test("the cross-test's tolerance is six times its spread, and none at 0 and 100 %", () => {
  for (const pct of [1, 20, 50, 80]) {
    const { spreadPct, tolerancePct } = crossTestRule(pct);
    expectNear(tolerancePct, 6 * spreadPct, 1e-12);
  }
  expect([crossTestRule(0).spreadPct, crossTestRule(100).tolerancePct]).toEqual([0, 0]);
});
