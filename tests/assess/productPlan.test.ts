import { describe, expect, test } from "vitest";
import { type PlanAsked, planOf } from "../../src/assess/productPlan.ts";
import { type TypicalTest, typicalOf, typicalOfTest } from "../../src/assess/typicalTest.ts";
import type { Product } from "../../src/record/product.ts";
import type { TestRecord } from "../../src/record/test.ts";
import { expectNear } from "../grading/near.ts";
import { recordedEntry } from "../screens/stage.ts";

const USUAL: PlanAsked = { riskPct: 5, chargeG: null, portions: null };
const { test: SAND } = recordedEntry();

/** The same test with all that its sieves hold taken so many times, and another charge. */
function times(record: TestRecord, by: number): TestRecord {
  const weighings = record.weighings.map((weighing) => ({
    ...weighing,
    fullG: (weighing.emptyG ?? 0) + by * ((weighing.fullG ?? 0) - (weighing.emptyG ?? 0)),
  }));
  return { ...record, weighings, chargeG: record.chargeG === null ? null : by * record.chargeG };
}

const netsOf = ({ graded }: TypicalTest): number[] => graded.grading.rows.map(({ netG }) => netG);
function typical(...tests: TestRecord[]) {
  const found = typicalOf(tests, SAND.product);
  return found.ok ? found.value : expect.fail(found.reason);
}
function planned(product: Product, asked: Partial<PlanAsked> = {}, of: TypicalTest = typical(SAND)) {
  const found = planOf(product, of, { ...USUAL, ...asked });
  return found.ok ? found.value : expect.fail(found.reason);
}

describe("a typical test", () => {
  test("is the mean of the masses and of the charge", () => {
    const found = typical(SAND, times(SAND, 2), times(SAND, 3));
    const one = netsOf(typical(SAND));
    for (const [i, netG] of netsOf(found).entries()) expectNear(netG, 2 * (one[i] ?? 0), 1e-9, 1e-9);
    expectNear(found.graded.grading.chargeG ?? 0, 2 * (SAND.chargeG ?? 0), 1e-9);
    expect(found.of).toHaveLength(3);
  });

  test("leaves tests on other sieves out, and has no charge where one was not weighed", () => {
    const fewer = { ...SAND, weighings: SAND.weighings.filter(({ apertureUm }) => apertureUm !== 500) };
    expect(typical(SAND, fewer).of).toEqual([SAND]);
    expect(typical(SAND, { ...SAND, chargeG: null }).graded.grading.chargeG).toBeNull();
  });

  test("is drawn as the product is today: what an older revision drew its curve over is neither kept nor taken for another", () => {
    const over = (apertures: "certified" | "effective"): Product => ({
      ...SAND.product,
      method: { ...SAND.product.method, apertures },
    });
    const restsOn = { certificate: { day: "2026-03-02", laboratory: "Invented Metrology" } };
    const wide = SAND.weighings.filter(({ apertureUm }) => apertureUm > 0);
    const certified: TestRecord = {
      ...SAND,
      product: over("certified"),
      weighings: SAND.weighings.map((w) => (w.apertureUm > 0 ? { ...w, serial: `S-${w.apertureUm}` } : w)),
      meanApertures: wide.map(({ apertureUm }) => ({
        apertureUm,
        serial: `S-${apertureUm}`,
        meanUm: 1.05 * apertureUm,
        restsOn,
      })),
    };
    const d50 = (plan: ReturnType<typeof planned>) => plan.plan.lines.find(({ name }) => name === "percentileUm@50");
    const typicalBy = (test: TestRecord, product: Product) => {
      const found = typicalOf([test], product);
      return found.ok ? found.value : expect.fail(found.reason);
    };
    const by = (test: TestRecord, product: Product) => d50(planned(product, {}, typicalBy(test, product)));
    const nominal = by(SAND, SAND.product);
    if (!nominal?.planned) expect.fail("not planned");
    expect(by(certified, certified.product)).toMatchObject({ typical: expect.closeTo(1.05 * nominal.typical, 6) });
    expect(by(certified, SAND.product)).toEqual(nominal);
    expect(by(certified, over("effective"))).toMatchObject({ planned: false });
  });

  test("of none there is a reason", () => expect(typicalOf([], SAND.product)).toMatchObject({ ok: false }));

  test("knows its balance and in how many portions it was sieved", () => {
    const [first, ...others] = SAND.weighings;
    const split = { ...SAND, weighings: [{ ...first!, earlierFullG: [(first!.emptyG ?? 0) + 1] }, ...others] };
    expect(typicalOfTest(split)).toMatchObject({ ok: true, value: { portions: 2, known: { balance: SAND.balance } } });
  });
});

describe("a plan of a product", () => {
  const dense = { ...SAND.product, material: { particleDensityKgM3: 2650 } };

  test("has a line for every limit, of the charge of the tests", () => {
    const { plan } = planned(dense);
    expect(plan.lines.map(({ name }) => name)).toEqual(["passingPct@1400", "passingPct@1000", "percentileUm@50"]);
    expectNear(plan.presentG, SAND.chargeG ?? 0, 1e-9);
  });

  test("a charge that is asked for is as much more of the same curve", () => {
    const [now, ten] = [planned(dense), planned(dense, { chargeG: 10 * (SAND.chargeG ?? 0) })];
    const of = ({ plan }: typeof now) => plan.lines.map((line) => (line.planned ? line : expect.fail(line.reason)));
    expectNear(ten.plan.presentG, 10 * (SAND.chargeG ?? 0), 1e-9);
    of(now).forEach((line, i) => {
      expectNear(of(ten)[i]!.typical, line.typical, 1e-9);
      expect(of(ten)[i]!.u).toBeLessThan(line.u);
    });
  });

  test("portions follow from the load limits of the procedure; without a rule or a frame it says why", () => {
    const withLoad = (load: object): Product => ({
      ...dense,
      method: { ...dense.method, procedure: { ruleSet: "own", ...load } },
    });
    const own = planned(withLoad({ load: { rule: "own", limitG: 40 } }));
    expect(own.loadLimits).toMatchObject({ determinable: true, value: 5 });
    expect(own.plan.portionsNeeded).toBeGreaterThan(1);
    expect(planned(dense).loadLimits).toMatchObject({ determinable: false });
    const noFrame = planned(withLoad({ load: { rule: "area" } })).loadLimits;
    expect(noFrame).toEqual({ determinable: false, reason: "the frame of the sieves is not given" });
  });

  test("values that are rounded before they are compared turn half a step further out", () => {
    const rounded: Product = { ...dense, decision: { rule: "simple", compare: { roundedTo: 1 } } };
    const [exact, half] = [dense, rounded].map((product) => planned(product).plan.lines[0]);
    if (!exact?.planned || !half?.planned) expect.fail("not planned");
    expectNear(half.wantedU - exact.wantedU, 0.5 / 1.6448536269514722, 1e-6);
    expect(half).toMatchObject({ min: 95, max: 100 });
  });

  test("what the product switches off is not counted", () => {
    const components = (product: Product) =>
      planned(product).plan.components.flatMap(({ id, included }) => (included ? [id] : []));
    expect(components(dense)).toContain("apertures");
    expect(components({ ...dense, uncertainty: { off: ["apertures"] } })).not.toContain("apertures");
  });

  test("the charge that the method allows stands beside it", () => {
    const product = { ...dense, method: { ...dense.method, chargeG: { min: 200, max: 350 } } };
    expect(planned(product).allowedG).toEqual({ min: 200, max: 350 });
    expect(planned(dense).allowedG).toEqual({ min: null, max: null });
  });
});
