import { parseMassG } from "../../entry/quantity.ts";
import { say } from "../../words/say.ts";
import { speaking } from "../../words/speaking.ts";
import { line } from "../line.ts";
import { type App, leave, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { typingBy } from "../typing.ts";
import type { PlanPlace } from "./places.ts";
import { plannedHere } from "./planned.ts";
import { planBody } from "./planView.ts";

const RISKS_PCT = [10, 5, 2, 1, 0.1];
const LONGEST = 12;

const placeOf = (app: App): PlanPlace => here(app, "plan");
const put = (app: App, change: Partial<PlanPlace>): Step =>
  step({ ...app, message: null, place: { ...placeOf(app), ...change } });

function moved(app: App, by: number): Step {
  const place = placeOf(app);
  const planned = plannedHere(place);
  const last = planned?.ok ? planned.value.told.plan.lines.length - 1 : 0;
  return put(app, { at: Math.max(0, Math.min(last, place.at + by)) });
}

function riskier(app: App, by: number): Step {
  const next = RISKS_PCT[RISKS_PCT.indexOf(placeOf(app).riskPct) + by];
  return next === undefined ? stay(app, say`there is no other risk to choose`) : put(app, { riskPct: next });
}

/** Enter on a charge that was typed; without one back to the charge of the tests. */
function taken(app: App): Step {
  const { typed, chargeG } = placeOf(app);
  if (typed === "")
    return chargeG === null ? stay(app, say`type a charge in g to see what it decides`) : put(app, { chargeG: null });
  const mass = parseMassG(typed, speaking().decimal);
  if (!mass.ok) return stay(app, mass.reason);
  return mass.value > 0 ? put(app, { typed: "", chargeG: mass.value }) : stay(app, say`a charge is more than 0 g`);
}

function turned(app: App): Step {
  const { inHand, from } = placeOf(app);
  if (inHand === null) return stay(app, say`no test is in hand: the plan is drawn from the newest ones`);
  return put(app, { from: from === "test in hand" ? "newest tests" : "test in hand" });
}

export const PLAN_KEYS: readonly Binding[] = [
  {
    keys: ["enter"],
    word: "charge",
    help: "What the typed charge decides; with nothing typed, back to the charge of the tests.",
    does: taken,
  },
  { keys: ["up", "-"], word: "limit", help: "The limit above.", does: (app) => moved(app, -1) },
  { keys: ["down", "+"], word: "limit", help: "The limit below.", does: (app) => moved(app, 1), quiet: true },
  {
    keys: ["left"],
    word: "more risk",
    help: "Allow a larger risk of a wrong acceptance.",
    does: (app) => riskier(app, -1),
  },
  { keys: ["right"], word: "less", help: "Allow a smaller risk.", does: (app) => riskier(app, 1) },
  {
    keys: ["t"],
    word: "which tests",
    help: "From the test in hand, or from the newest tests of the product.",
    does: turned,
  },
  {
    keys: ["escape"],
    word: "back",
    help: "Back to where you came from.",
    does: (app) => (placeOf(app).typed === "" ? step(leave(app)) : put(app, { typed: "" })),
  },
];

const retyped = (app: App, change: (typed: string) => string): Step =>
  put(app, { typed: change(placeOf(app).typed).slice(0, LONGEST) });

/** What it takes to judge the limits of a product: the charge, and in how many portions. */
export const planRoom: Room = {
  title: (app) => {
    const { product } = placeOf(app);
    return { left: say`${product.code} rev ${product.revision} · how much to sieve`, right: line(product.name, "dim") };
  },
  body: planBody,
  keys: () => PLAN_KEYS,
  field: () => "number",
  ...typingBy(retyped, taken),
  about: [
    "Which charge, sieved in how many portions, decides each limit. A typical result must lie inside its limit by a guard",
    "band, so that it is not accepted wrongly more often than the risk allows. Type a charge to see what it would decide.",
    "What no charge decides says why: the sieves, the limit itself, or the product. Portions follow from what the sieves may",
    "hold by the product's procedure; what each portion leaves on a sieve is added up.",
  ],
};
