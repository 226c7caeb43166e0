import { type ProductPlan, planOf } from "../../assess/productPlan.ts";
import { type TypicalTest, typicalOf, typicalOfTest } from "../../assess/typicalTest.ts";
import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { remembered } from "../../grading/remembered.ts";
import { type PlanFrom, planFromTests } from "../../report/planWords.ts";
import { say } from "../../words/say.ts";
import { speaking } from "../../words/speaking.ts";
import type { PlanPlace } from "./places.ts";

interface Source {
  readonly typical: TypicalTest;
  readonly from: PlanFrom;
}

function sourceOf({ from, inHand, latest, product }: PlanPlace): Outcome<Source> {
  if (from === "test in hand" && inHand !== null) {
    const typical = typicalOfTest(inHand);
    return typical.ok ? accepted({ typical: typical.value, from: { kind: "test in work", lot: inHand.lot } }) : typical;
  }
  const { tests, problem } = latest ?? { tests: [], problem: null };
  if (tests.length === 0) return refused(problem ?? say`no test of ${product.code} on this station counts yet`);
  const typical = typicalOf(tests, product);
  return typical.ok ? accepted({ typical: typical.value, from: planFromTests(typical.value.of) }) : typical;
}

export interface Planned {
  readonly told: ProductPlan;
  readonly from: PlanFrom;
}

/** Plans made from the same tests, by what was asked: the mark moves without working anything out again. */
const plansFrom = remembered((_source: object) => new Map<string, Outcome<Planned>>());

function plannedFrom(place: PlanPlace): Outcome<Planned> {
  const source = sourceOf(place);
  if (!source.ok) return source;
  const { product, riskPct, chargeG } = place;
  const told = planOf(product, source.value.typical, { riskPct, chargeG, portions: null });
  return told.ok ? accepted({ told: told.value, from: source.value.from }) : told;
}

/** The plan that the place shows; null while the tests are being read. */
export function plannedHere(place: PlanPlace): Outcome<Planned> | null {
  const { from, inHand, latest, product, riskPct, chargeG } = place;
  const source = from === "test in hand" ? inHand : latest;
  if (source === null) return null;
  const plans = plansFrom(source);
  const asked = `${product.code} ${product.revision} ${riskPct} ${chargeG} ${speaking().language}`;
  const plan = plans.get(asked) ?? plannedFrom(place);
  plans.set(asked, plan);
  return plan;
}
