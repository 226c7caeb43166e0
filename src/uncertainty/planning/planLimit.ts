import type { Budget, Contribution } from "../budget.ts";
import type { SamplingConditions } from "../conditions.ts";
import { distanceTo, type LimitRange } from "../decision/decide.ts";
import { rarerGrains } from "../decision/fewGrains.ts";
import { realEnds } from "../decision/realEnds.ts";
import { isFixed, timesFor, uAt, type Variance, varianceByCharge } from "../decision/scaling.ts";
import { largestComponent } from "../decision/whatDecides.ts";
import { boundsOf, type Measurand } from "../measurand.ts";
import { crossTestRule } from "./crossTest.ts";
import type { CrossTest, PlanLine, PlannedGrains, PlanVerdict, Sure } from "./planLine.ts";
import { type LargestPortion, portionsFor } from "./portions.ts";
import { practicalG } from "./practical.ts";

/** What all limits of one plan share. */
export interface Setting {
  readonly budgetIn: (portions: number) => Budget;
  readonly sampling: SamplingConditions | undefined;
  readonly z: number;
  readonly presentG: number;
  readonly presentPortions: number;
  readonly largest: LargestPortion | null;
  /** What the method asks for at least. */
  readonly allowedLeastG: number;
}

/** Portions and charge pull each other up; they settle in a few rounds, or the weighings outgrow what they bring. */
const MOST_ROUNDS = 50;

function crossTestOf(sure: Sure, { min, max }: LimitRange): CrossTest | null {
  if (sure.unit !== "%") return null;
  const rule = crossTestRule(sure.value);
  const widthPct = min === null || max === null ? null : max - min;
  return { ...rule, widthPct, tooNarrow: widthPct !== null && widthPct < rule.tolerancePct };
}

/** The best that any result can do: from the middle of the limit to its ends. */
const halfWidth = ({ min, max }: LimitRange): number =>
  min === null || max === null ? Number.POSITIVE_INFINITY : (max - min) / 2;

type Setup = Pick<Setting, "budgetIn" | "presentG" | "sampling">;

/**
 * The variance of a result sieved in any number of portions. Every portion has full readings of its own and takes the
 * empty reading off once more, so the balance's part is `a + b p + c p^2`; one, two and three portions tell a, b and c.
 */
function varianceByPortions(
  at: number,
  { budgetIn, presentG, sampling }: Setup,
): ((portions: number) => Variance) | null {
  const [one, two, three] = [1, 2, 3].map((portions) => {
    const sure = budgetIn(portions).asked[at];
    return sure?.determinable ? varianceByCharge(sure, presentG, sampling) : null;
  });
  if (!one || !two || !three) return null;
  const c = (three.bySquare - 2 * two.bySquare + one.bySquare) / 2;
  const b = two.bySquare - one.bySquare - 3 * c;
  const a = one.bySquare - b - c;
  return (portions) => ({ ...one, bySquare: Math.max(0, a + b * portions + c * portions ** 2) });
}

interface Needed {
  readonly leastG: number;
  readonly chargeG: number;
  readonly portions: number;
}

/** The least charge, with the readings of the portions that it takes; null where no charge is large enough. */
function neededFor(at: number, wantedU: number, setting: Setting): Needed | null {
  const varianceIn = varianceByPortions(at, setting);
  let portions = 1;
  for (let round = 0; varianceIn !== null && round < MOST_ROUNDS; round++) {
    const times = timesFor(varianceIn(portions), wantedU);
    if (times === null) return null;
    const leastG = times * setting.presentG;
    const chargeG = Math.max(practicalG(leastG), setting.allowedLeastG);
    const more = portionsFor(chargeG, setting.largest);
    if (more <= portions) return { leastG, chargeG, portions };
    portions = more;
  }
  return null;
}

function floorFrom({ components }: Sure): Pick<Contribution, "id" | "label"> | null {
  const fixed = components.flatMap((part) => (part.included && isFixed(part.id) && part.u > 0 ? [part] : []));
  const [most] = fixed.toSorted((a, b) => b.u - a.u);
  return most ? { id: most.id, label: most.label } : null;
}

function grainsFor(on: Measurand, needed: Needed | null, { budgetIn, presentG, presentPortions }: Setting) {
  const rare = "apertureUm" in on ? rarerGrains(budgetIn(presentPortions), on.apertureUm) : null;
  if (rare === null || needed === null) return null;
  return { ...rare, needed: (rare.grains * needed.chargeG) / presentG } satisfies PlannedGrains;
}

/** The deepest reason why no charge decides a limit comes first. */
function verdictOf(distance: number, tooNarrow: boolean, needed: Needed | null, presentDoes: boolean): PlanVerdict {
  if (tooNarrow) return "too narrow";
  if (distance <= 0) return "typical lies outside";
  if (presentDoes) return "decidable";
  return needed === null ? "no charge is enough" : "larger charge";
}

interface Outlook {
  readonly uFloor: number;
  readonly wantedU: number;
  readonly verdict: PlanVerdict;
  readonly needed: Needed | null;
}

function outlookOf(sure: Sure, limit: LimitRange, at: number, setting: Setting): Outlook {
  const { z, presentG, sampling } = setting;
  const uFloor = uAt(varianceByCharge(sure, presentG, sampling), Number.POSITIVE_INFINITY);
  const { distance } = distanceTo(sure.value, limit);
  const wantedU = Math.max(0, distance) / z;
  const found = distance > 0 ? neededFor(at, wantedU, setting) : null;
  const verdict = verdictOf(distance, z * uFloor >= halfWidth(limit), found, sure.u <= wantedU);
  const needed = verdict === "decidable" || verdict === "larger charge" ? found : null;
  return { uFloor, wantedU, verdict, needed };
}

type Given = LimitRange & { readonly on: Measurand; readonly turns?: LimitRange };

/**
 * What it takes to judge one limit, from the budget of a typical result of it.
 *
 * @param at where the limit stands in the budget's `asked`
 * @returns not planned, with the reason, for a limit that excludes nothing
 */
export function planLimit(sure: Sure, given: Given, at: number, setting: Setting): PlanLine {
  const { on, name, value: typical, unit, u, U } = sure;
  const { min, max } = given;
  const limit = realEnds(given.turns ?? given, boundsOf(unit));
  const common = { on, name, min, max };
  if (limit.min === null && limit.max === null)
    return { ...common, planned: false, reason: "nothing can lie outside this limit" };
  const { uFloor, wantedU, verdict, needed } = outlookOf(sure, limit, at, setting);
  const largest = largestComponent(sure);
  const fewGrains = verdict === "larger charge" && largest?.id === "grains";
  return {
    ...common,
    planned: true,
    ...{ typical, unit, u, U, uFloor, wantedU, verdict, largest },
    leastG: needed?.leastG ?? null,
    chargeG: needed?.chargeG ?? null,
    portions: needed?.portions ?? null,
    floorFrom: floorFrom(sure),
    leastWidth: halfWidth(limit) === Number.POSITIVE_INFINITY ? null : 2 * setting.z * uFloor,
    grains: fewGrains ? grainsFor(on, needed, setting) : null,
    crossTest: crossTestOf(sure, limit),
  };
}
