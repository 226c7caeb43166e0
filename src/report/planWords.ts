import { chargeOutside, type ProductPlan } from "../assess/productPlan.ts";
import { roundHalfAway } from "../grading/rounding.ts";
import type { Plan } from "../uncertainty/planning/planFor.ts";
import type { PlanLine, PlannedLine } from "../uncertainty/planning/planLine.ts";
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

/** In words, what a plan takes for typical. */
export function fromWords(from: PlanFrom): string {
  if (from.kind === "sheet") return `the weighing sheet ${from.name}`;
  if (from.kind === "test in work") return `this test alone${from.lot === "" ? "" : ` (lot ${from.lot})`}`;
  const { numbers, since, until } = from;
  const [newest, oldest] = [numbers[0], numbers.at(-1)];
  if (numbers.length === 1) return `one test, no. ${newest} of ${until.slice(0, 10)}`;
  const days = `${since.slice(0, 10)} to ${until.slice(0, 10)}`;
  return `the mean of the ${numbers.length} newest tests, no. ${oldest} to ${newest}, ${days}`;
}

const andSo = (plan: Plan): string => `${chargeText(plan.presentG)} in ${portionsText(plan.presentPortions)}`;

/** The charge in question, and what the sieves take of it at once. */
export function chargeWords({ plan, loadLimits }: ProductPlan): string {
  const { largestPortion, portionsNeeded, presentPortions } = plan;
  const charge = `charge ${andSo(plan)}`;
  if (largestPortion === null) {
    const why = loadLimits.determinable ? "no sieve that holds anything has one" : loadLimits.reason;
    return `${charge}; how much the sieves take at once is not known: ${why}`;
  }
  const most = `the ${apertureText(largestPortion.fullestUm)} sieve takes ${chargeText(largestPortion.portionG)} at once`;
  return portionsNeeded > presentPortions
    ? `! ${charge}: ${most}, so that it takes ${portionsNeeded} portions`
    : `${charge}; ${most}`;
}

const pct = (share: number): string => `${roundHalfAway(100 * share, 0)} %`;

const isIncluded = ({ components }: Plan, id: string): boolean =>
  components.some((part) => part.id === id && part.included);

/** A smaller charge that would do is named only where what sampling it loses is counted. */
function lessWords({ chargeG }: PlannedLine, plan: Plan): string {
  const isLess = chargeG !== null && chargeG > 0 && chargeG < plan.presentG;
  return isLess && isIncluded(plan, "sampling") ? `; ${chargeText(chargeG)} would do` : "";
}

/** What a reader must know who thinks of other charges than those that are named. */
export const cautions = (plan: Plan): readonly string[] => [
  ...(isIncluded(plan, "grains")
    ? []
    : ["The count of grains is not included: no charge is told to be too small for it."]),
  ...(isIncluded(plan, "sampling")
    ? []
    : ["Sampling is not included: a smaller charge loses more than is counted here."]),
];

/** That the charge in question is not one of the method's; nothing where it is. */
function outsideWords(told: ProductPlan): string[] {
  const { plan, allowedG } = told;
  const outside = chargeOutside(told);
  if (outside === null) return [];
  const bound =
    outside === "below" ? `${chargeText(allowedG.min ?? 0)} at least` : `${chargeText(allowedG.max ?? 0)} at most`;
  return [`! ${chargeText(plan.presentG)} is not a charge of the method, which asks for ${bound}`];
}

function verdictWords(line: PlannedLine, told: ProductPlan): string {
  const { plan } = told;
  const { verdict, unit, uFloor, wantedU, floorFrom, leastWidth, chargeG, portions } = line;
  const from = floorFrom === null ? "" : `, most of it from ${floorFrom.label.toLowerCase()}`;
  switch (verdict) {
    case "decidable":
      return chargeOutside(told) === null
        ? `${chargeText(plan.presentG)} decides it${lessWords(line, plan)}`
        : `sure enough with ${chargeText(plan.presentG)}, which the method does not allow`;
    case "larger charge":
      return `${chargeText(chargeG ?? 0)} in ${portionsText(portions ?? 1)}; ${chargeText(plan.presentG)} can't decide it`;
    case "no charge is enough":
      if (uFloor < wantedU) return "no charge decides it: so many portions add more by their weighings than they bring";
      return `no charge decides it: +/- ${spreadText(2 * uFloor, unit)} stays however much is sieved${from}`;
    case "too narrow":
      return `narrower than the method can see: it would have to be ${spreadText(leastWidth ?? 0, unit)} wide at least${from}`;
    case "typical lies outside":
      return `the typical ${typicalText(line)} lies outside: no charge helps, the product itself must change`;
  }
}

function reasonWords({ largest, grains, crossTest, verdict }: PlannedLine): string[] {
  const most =
    largest === null || verdict === "decidable" || verdict === "typical lies outside"
      ? []
      : [
          `Most of its uncertainty (${pct(largest.shareOfVariance)} of the variance) is ${largest.label.toLowerCase()}.`,
        ];
  const few =
    grains === null
      ? []
      : [
          `About ${roundHalfAway(grains.grains, 0)} grains are ${grains.side} than it; ${roundHalfAway(grains.needed, 0)} are needed.`,
        ];
  const narrow = crossTest?.tooNarrow
    ? [
        `! ${crossTest.widthPct} % wide: between laboratories less than ${roundHalfAway(crossTest.tolerancePct, 1)} % can't be judged well here (European cross-test of three sands).`,
      ]
    : [];
  return [...most, ...few, ...narrow];
}

/** One limit in words: first what it takes, then why. */
export function limitWords(line: PlanLine, told: ProductPlan): readonly string[] {
  const subject = `${limitLabel(told, line.name)}, ${boundsWords(line)}`;
  if (!line.planned) return [`${subject}: can't be planned for: ${line.reason}`];
  return [`${subject}: ${verdictWords(line, told)}`, ...reasonWords(line)];
}

/** What a plan comes to: the charge for every limit that any charge decides. */
export function planWords(told: ProductPlan): readonly string[] {
  const { plan, allowedG } = told;
  const { lines, presentG, chargeG, portions } = plan;
  if (lines.length === 0) return ["this product has no limits: there is nothing to judge, and no charge to plan"];
  const decided = lines.filter((line) => line.planned && line.verdict === "decidable").length;
  const larger = lines.filter((line) => line.planned && line.verdict === "larger charge").length;
  const never = lines.length - decided - larger;
  const beyond = never === 0 ? "" : `; for ${never} no charge can be named, see why`;
  const outside = outsideWords(told);
  if (larger === 0) {
    const decides = outside.length === 0 ? "decides" : "would by itself be sure enough for";
    return [...outside, `${chargeText(presentG)} ${decides} ${decided} of ${lines.length} limits${beyond}`];
  }
  const most = allowedG.max;
  const too =
    most !== null && chargeG > most
      ? [`! the method allows ${chargeText(most)} at most: more takes a change of the method`]
      : [];
  return [
    ...outside,
    `${chargeText(chargeG)} in ${portionsText(portions)} decides ${decided + larger} of ${lines.length} limits; ${chargeText(presentG)} ${outside.length === 0 ? "decides" : "alone"} ${decided}${beyond}`,
    ...too,
  ];
}

/** What the whole plan rests on. */
export const guardWords = ({ risk, z }: Plan): string =>
  `risk of a wrong acceptance ${Number((100 * risk).toPrecision(6))} %: a typical result must be inside by ${roundHalfAway(z, 2)} u`;
