import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { budgetOf } from "../../../src/uncertainty/budget.ts";
import type { Conditions } from "../../../src/uncertainty/conditions.ts";
import { decide, type Guard, guardWidth } from "../../../src/uncertainty/decision/decide.ts";
import { fewGrains, rarerGrains } from "../../../src/uncertainty/decision/fewGrains.ts";
import { timesFor, uAt, varianceByCharge } from "../../../src/uncertainty/decision/scaling.ts";
import { type DecidedLimit, largestComponent, whatDecides } from "../../../src/uncertainty/decision/whatDecides.ts";
import { expectNear } from "../../grading/near.ts";
import { ALL_KNOWN, passingSure, type Sure, sand, testOf } from "../situations.ts";

const guard: Guard = { r: 1 };
const judged = (sure: Sure, min: number | null, max: number | null): DecidedLimit => ({
  sure,
  limit: { min, max },
  decided: decide(sure, { min, max }, { kind: "guarded both", guard }),
});

const coarse = (times: number) => testOf(`4000:${6 * times} 2800:${30 * times} 2000:${40 * times} pan:${24 * times}`);
const grainsOnly: Conditions = { material: { particleDensityKgM3: 2650 } };

describe("what decides", () => {
  const budget = budgetOf(coarse(3), grainsOnly, []);
  const situation = { budget, chargeG: 300, guard };
  const at = (um: number) => passingSure(budget, um);

  test("is the limit nearest its guard band, counted in its own uncertainty", () => {
    const far = judged(at(2800), 20, null);
    const near = judged(at(4000), at(4000).value - 3 * at(4000).u, null);
    const found = whatDecides([far, near], situation)!;
    expect(found).toMatchObject({ name: "passingPct@4000", side: "min", result: "within" });
    expectNear(found.inU, 1, 1e-9);
    expectNear(found.toLimit, 3 * at(4000).u, 1e-9);
    expect(found.helps).toEqual([]);
  });

  test("a limit that is missed decides before all that are met", () => {
    const missed = judged(at(2800), 80, null);
    const met = judged(at(4000), 10, null);
    expect(whatDecides([met, missed], situation)).toMatchObject({ name: "passingPct@2800", result: "below" });
  });

  test("without limits nothing decides", () => expect(whatDecides([], situation)).toBeNull());

  test("names the charge with which the limit becomes decidable, and that charge does it", () => {
    const borderline = judged(at(4000), at(4000).value - at(4000).u, null);
    const found = whatDecides([borderline], situation)!;
    expect(found.result).toBe("borderline");
    expect(found.largest).toMatchObject({ id: "grains", shareOfVariance: 1 });
    const charge = found.helps.find((help) => help.kind === "charge");
    if (charge?.kind !== "charge") throw new Error("no charge is named");
    expectNear(charge.toG, 4 * 300, 1e-6);
    const heavier = passingSure(budgetOf(coarse((3 * charge.toG) / 300), grainsOnly, []), 4000);
    // The half grain shrinks faster than the counts, so the charge named is enough, and not by much.
    expect(guardWidth(guard, heavier.u)).toBeLessThanOrEqual(at(4000).u * 1.0001);
    expect(guardWidth(guard, heavier.u)).toBeGreaterThan(at(4000).u * 0.95);
  });

  test("counts the grains on the rarer side and how many would do", () => {
    const borderline = judged(at(4000), at(4000).value - at(4000).u, null);
    const help = whatDecides([borderline], situation)!.helps.find((each) => each.kind === "grains");
    const rare = rarerGrains(budget, 4000)!;
    expect(help).toMatchObject({ apertureUm: 4000, side: "coarser", grains: rare.grains });
    if (help?.kind === "grains") expectNear(help.needed, 4 * rare.grains, 1e-6);
  });

  test.each([
    ["apertures", { apertures: {} }, { kind: "certificates" }],
    ["readability", { balance: { readabilityG: 5 } }, { kind: "balance", component: "readability" }],
    ["endPoint", { endPoint: { remainderPct: 3 } }, { kind: "sieve longer" }],
    ["sampling", { sampling: { kind: "stated", sdPctAt50: 3 } }, { kind: "sample larger" }],
  ] as const)("names what helps where %s is the largest component", (id, conditions, help) => {
    const some = budgetOf(coarse(3), conditions, []);
    const sure = passingSure(some, 2800);
    const found = whatDecides([judged(sure, sure.value - sure.u, null)], { ...situation, budget: some })!;
    expect(found.largest?.id).toBe(id);
    expect(found.helps).toContainEqual(help);
  });

  test("closing the loss helps where the loss is the largest component", () => {
    const lossy = testOf("4000:18 2800:90 2000:120 pan:72", { chargeG: 306 });
    const some = budgetOf(lossy, {}, []);
    const sure = passingSure(some, 2800);
    const found = whatDecides([judged(sure, sure.value - sure.u, null)], { ...situation, budget: some })!;
    expect(found.helps).toContainEqual({ kind: "close the loss" });
    expect(found.helps[0]).toMatchObject({ kind: "no charge is enough" });
  });

  test("nothing is known to help where nothing is included", () => {
    const some = budgetOf(coarse(3), {}, []);
    const sure = passingSure(some, 2800);
    expect(largestComponent(sure)).toBeNull();
    expect(whatDecides([judged(sure, 10, null)], { ...situation, budget: some })).toMatchObject({ helps: [] });
  });
});

describe("too few grains", () => {
  const few = budgetOf(testOf("4000:0 2800:1.2 2000:60 pan:38.8"), grainsOnly, []);

  test("a limit of 99.5 to 100 % on a sieve that a few dozen grains decide is named with its count", () => {
    const [found] = fewGrains(few, [{ apertureUm: 2800, min: 99.5, max: 100 }]);
    expect(found).toMatchObject({ apertureUm: 2800, side: "coarser", limit: { min: 99.5, max: 100 } });
    expect(found!.grains).toBeGreaterThan(15);
    expect(found!.grains).toBeLessThan(40);
    expect(found!.needed).toBeGreaterThan(found!.grains);
  });

  test("a wide limit needs no more", () =>
    expect(fewGrains(few, [{ apertureUm: 2800, min: 50, max: null }])).toEqual([]));

  test("nobody counts without a density, or at a sieve that is not there", () => {
    const none = budgetOf(coarse(1), {}, []);
    expect(fewGrains(none, [{ apertureUm: 2800, min: 99, max: 100 }])).toEqual([]);
    expect(rarerGrains(none, 2800)).toBeNull();
    expect(fewGrains(few, [{ apertureUm: 1000, min: 99, max: 100 }])).toEqual([]);
  });

  test("below the middle the finer grains are counted if they are fewer", () => {
    const fines = budgetOf(testOf("4000:0 1000:1000 900:0.002 pan:0"), grainsOnly, []);
    expect(rarerGrains(fines, 1000)?.side).toBe("finer");
  });
});

describe("variance by charge", () => {
  const variances = fc.record({
    fixed: fc.double({ min: 0, max: 1, noNaN: true }),
    byMass: fc.double({ min: 0.001, max: 1, noNaN: true }),
    bySquare: fc.double({ min: 0, max: 1, noNaN: true }),
  });

  test("the charge found gives the uncertainty wanted", () =>
    fc.assert(
      fc.property(variances, fc.double({ min: 0.01, max: 3, noNaN: true }), (variance, wantedU) => {
        const times = timesFor(variance, wantedU);
        if (times === null) expect(wantedU ** 2).toBeLessThanOrEqual(variance.fixed);
        else expectNear(uAt(variance, times), wantedU, 1e-6);
      }),
    ));

  test("where nothing depends on the charge any charge does, or none", () => {
    const fixed = { fixed: 0.04, byMass: 0, bySquare: 0 };
    expect(timesFor(fixed, 0.3)).toBe(0);
    expect(timesFor(fixed, 0.19)).toBeNull();
  });

  test("it is what the budget itself says of twice the charge", () => {
    const [one, two] = [1, 2].map((times) =>
      budgetOf(
        testOf(`1000:${80 * times} 500:${100 * times} pan:${120 * times}`, { chargeG: 300.9 * times }),
        { ...ALL_KNOWN, sampling: { kind: "stated", sdPctAt50: 0.5 } },
        [],
      ),
    );
    const predicted = uAt(varianceByCharge(passingSure(one!, 500), 300), 2);
    expectNear(predicted, passingSure(two!, 500).u, 0.001);
  });

  test("of a finite sample the grains' gain is the stages' loss: the whole sample leaves only the stages", () => {
    const sampling = { kind: "fundamental", sampleG: 600 } as const;
    const sure = passingSure(budgetOf(sand(), { ...grainsOnly, sampling }, []), 1000);
    const variance = varianceByCharge(sure, 300, sampling);
    const sampled = sure.components.find((part) => part.id === "sampling");
    expectNear(uAt(variance, 2), sampled?.included ? sampled.u : -1, 1e-6);
  });
});
