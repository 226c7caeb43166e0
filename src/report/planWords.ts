import { chargeOutside, type ProductPlan } from "../assess/productPlan.ts";
import { roundHalfAway } from "../grading/rounding.ts";
import type { Plan } from "../uncertainty/planning/planFor.ts";
import type { PlanLine, PlannedLine } from "../uncertainty/planning/planLine.ts";
import { dayText, figure } from "../words/figures.ts";
import { say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { apertureText } from "./figures.ts";
import { boundsWords, chargeText, limitLabel, portionsText, spreadText, typicalText } from "./planFigures.ts";

/** What the typical result of a plan was drawn from. */
export type PlanFrom =
  | { readonly kind: "tests"; readonly numbers: readonly number[]; readonly since: string; readonly until: string }
  | { readonly kind: "sheet"; readonly name: string }
  | { readonly kind: "test in work"; readonly lot: string };

/** A plan from recorded tests, the newest in front. */
export function planFromTests(tests: readonly { readonly number: number; readonly at: string }[]): PlanFrom {
  const numbers = tests.map(({ number }) => number);
  return { kind: "tests", numbers, since: tests.at(-1)?.at ?? "", until: tests[0]?.at ?? "" };
}

/** In words, where a plan takes what is typical from. */
export function fromWords(from: PlanFrom): string {
  if (from.kind === "sheet") return say`from the weighing sheet ${from.name}`;
  if (from.kind === "test in work")
    return from.lot === "" ? say`from this test alone` : say`from this test alone (lot ${from.lot})`;
  const { numbers, since, until } = from;
  const [newest = 0, oldest = 0] = [numbers[0], numbers.at(-1)];
  if (numbers.length === 1) return say`from one test, no. ${newest} of ${dayText(until)}`;
  const days = say`${dayText(since)} to ${dayText(until)}`;
  return say`from the mean of the ${numbers.length} newest tests, no. ${oldest} to ${newest}, ${days}`;
}

const andSo = (plan: Plan): string => say`${chargeText(plan.presentG)} in ${portionsText(plan.presentPortions)}`;

/** The charge in question, and what the sieves take of it at once. */
export function chargeWords({ plan, loadLimits }: ProductPlan): string {
  const { largestPortion, portionsNeeded, presentPortions } = plan;
  const charge = say`charge ${andSo(plan)}`;
  if (largestPortion === null) {
    const why = loadLimits.determinable ? say`no sieve that holds anything has one` : spoken(loadLimits.reason);
    return say`${charge}; how much the sieves take at once is not known: ${why}`;
  }
  const [sieve, portion] = [apertureText(largestPortion.fullestUm), chargeText(largestPortion.portionG)];
  const most = say`the ${sieve} sieve takes ${portion} at once`;
  return portionsNeeded > presentPortions
    ? say`! ${charge}: ${most}, so that it takes ${portionsNeeded} portions`
    : `${charge}; ${most}`;
}

const pct = (share: number): string => `${roundHalfAway(100 * share, 0)} %`;

const isIncluded = ({ components }: Plan, id: string): boolean =>
  components.some((part) => part.id === id && part.included);

/** A smaller charge that would do is named only where what sampling it loses is counted. */
function lessWords({ chargeG }: PlannedLine, plan: Plan): string {
  const isLess = chargeG !== null && chargeG > 0 && chargeG < plan.presentG;
  return isLess && isIncluded(plan, "sampling") ? say`; ${chargeText(chargeG)} would do` : "";
}

/** What a reader must know who thinks of other charges than those that are named. */
export const cautions = (plan: Plan): readonly string[] => [
  ...(isIncluded(plan, "grains")
    ? []
    : [say`The count of grains is not included: no charge is told to be too small for it.`]),
  ...(isIncluded(plan, "sampling")
    ? []
    : [say`Sampling is not included: a smaller charge loses more than is counted here.`]),
];

/** That the charge in question is not one of the method's; nothing where it is. */
function outsideWords(told: ProductPlan): string[] {
  const { plan, allowedG } = told;
  const outside = chargeOutside(told);
  if (outside === null) return [];
  const bound =
    outside === "below"
      ? say`${chargeText(allowedG.min ?? 0)} at least`
      : say`${chargeText(allowedG.max ?? 0)} at most`;
  return [say`! ${chargeText(plan.presentG)} is not a charge of the method, which asks for ${bound}`];
}

/** A part of the uncertainty as it stands within a sentence: German keeps the capitals of its nouns. */
const within = (label: string): string => {
  const words = spoken(label);
  return words === label ? label.toLowerCase() : words;
};

function verdictWords(line: PlannedLine, told: ProductPlan): string {
  const { plan } = told;
  const { verdict, unit, uFloor, wantedU, floorFrom, leastWidth, chargeG, portions } = line;
  const from = floorFrom === null ? "" : say`, most of it from ${within(floorFrom.label)}`;
  const present = chargeText(plan.presentG);
  switch (verdict) {
    case "decidable":
      return chargeOutside(told) === null
        ? say`${present} decides it${lessWords(line, plan)}`
        : say`sure enough with ${present}, which the method does not allow`;
    case "larger charge":
      return say`${chargeText(chargeG ?? 0)} in ${portionsText(portions ?? 1)}; ${present} can't decide it`;
    case "no charge is enough":
      if (uFloor < wantedU)
        return say`no charge decides it: so many portions add more by their weighings than they bring`;
      return say`no charge decides it: +/- ${spreadText(2 * uFloor, unit)} stays however much is sieved${from}`;
    case "too narrow":
      return say`narrower than the method can see: it would have to be ${spreadText(leastWidth ?? 0, unit)} wide at least${from}`;
    case "typical lies outside":
      return say`the typical ${typicalText(line)} lies outside: no charge helps, the product itself must change`;
  }
}

function reasonWords({ largest, grains, crossTest, verdict }: PlannedLine): string[] {
  const most =
    largest === null || verdict === "decidable" || verdict === "typical lies outside"
      ? []
      : [say`Most of its uncertainty (${pct(largest.shareOfVariance)} of the variance) is ${within(largest.label)}.`];
  const few = grains === null ? [] : [grainWords(grains)];
  const narrow = crossTest?.tooNarrow
    ? [
        say`! ${crossTest.widthPct ?? 0} % wide: between laboratories less than ${figure(roundHalfAway(crossTest.tolerancePct, 1))} % can't be judged well here (European cross-test of three sands).`,
      ]
    : [];
  return [...most, ...few, ...narrow];
}

function grainWords({ grains, needed, side }: NonNullable<PlannedLine["grains"]>): string {
  const [there, wanted] = [roundHalfAway(grains, 0), roundHalfAway(needed, 0)];
  return side === "coarser"
    ? say`About ${there} grains are coarser than it; ${wanted} are needed.`
    : say`About ${there} grains are finer than it; ${wanted} are needed.`;
}

/** One limit in words: first what it takes, then why. */
export function limitWords(line: PlanLine, told: ProductPlan): readonly string[] {
  const subject = `${limitLabel(told, line.name)}, ${boundsWords(line)}`;
  if (!line.planned) return [say`${subject}: can't be planned for: ${spoken(line.reason)}`];
  return [`${subject}: ${verdictWords(line, told)}`, ...reasonWords(line)];
}

/** What a plan comes to: the charge for every limit that any charge decides. */
export function planWords(told: ProductPlan): readonly string[] {
  const { plan, allowedG } = told;
  const { lines, presentG, chargeG, portions } = plan;
  if (lines.length === 0) return [say`this product has no limits: there is nothing to judge, and no charge to plan`];
  const decided = lines.filter((line) => line.planned && line.verdict === "decidable").length;
  const larger = lines.filter((line) => line.planned && line.verdict === "larger charge").length;
  const never = lines.length - decided - larger;
  const beyond = never === 0 ? "" : say`; for ${never} no charge can be named, see why`;
  const outside = outsideWords(told);
  const [present, all] = [chargeText(presentG), lines.length];
  if (larger === 0)
    return outside.length === 0
      ? [say`${present} decides ${decided} of ${all} limits${beyond}`]
      : [...outside, say`${present} would by itself be sure enough for ${decided} of ${all} limits${beyond}`];
  const most = allowedG.max;
  const too =
    most !== null && chargeG > most
      ? [say`! the method allows ${chargeText(most)} at most: more takes a change of the method`]
      : [];
  const head = say`${chargeText(chargeG)} in ${portionsText(portions)} decides ${decided + larger} of ${all} limits`;
  const alone =
    outside.length === 0 ? say`${present} decides ${decided}${beyond}` : say`${present} alone ${decided}${beyond}`;
  return [...outside, `${head}; ${alone}`, ...too];
}

/** What the whole plan rests on. */
export const guardWords = ({ risk, z }: Plan): string =>
  say`risk of a wrong acceptance ${Number((100 * risk).toPrecision(6))} %: a typical result must be inside by ${figure(roundHalfAway(z, 2))} u`;
