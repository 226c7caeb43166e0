import type { HowSure, SureLimit } from "../assess/howSure.ts";
import { clip, columnsOf } from "../terminal/sanitise.ts";
import { type Sureness, togetherU } from "../uncertainty/budget.ts";
import { COMPONENT_IDS, type ComponentId } from "../uncertainty/conditions.ts";
import { phrase, say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { inColumns, wrapped } from "./columns.ts";
import { apertureText, NO_FIGURE } from "./figures.ts";
import {
  boundsSaidOf,
  chanceText,
  figureText,
  inSentence,
  isByDraws,
  nameText,
  spreadText,
  sureOn,
  sureText,
} from "./sureFigures.ts";
import { RESULT_WORDS } from "./verdictWords.ts";

/** Headings of the components, short enough to stand side by side. */
const SHORT: Readonly<Record<ComponentId, string>> = {
  readability: phrase("step"),
  repeatability: phrase("repeat"),
  linearity: phrase("linear"),
  drift: phrase("drift"),
  loss: phrase("loss"),
  apertures: phrase("sieves"),
  grains: phrase("grains"),
  sampling: phrase("sample"),
  endPoint: "end",
};

/** Fills in nothing, but makes a message of its own: elsewhere "end" is what one does to a test. */
const NOUN = "";

const headingOf = ({ heading }: Column): string => (heading === SHORT.endPoint ? say`end${NOUN}` : spoken(heading));

interface Column {
  readonly heading: string;
  readonly ids: readonly ComponentId[];
}

const APART: readonly Column[] = COMPONENT_IDS.map((id) => ({ heading: SHORT[id], ids: [id] }));
const OF_BALANCE: readonly ComponentId[] = ["readability", "repeatability", "linearity", "drift"];
/** For narrow windows: the four of the balance as one. */
const TOGETHER: readonly Column[] = [
  { heading: phrase("balance"), ids: OF_BALANCE },
  ...APART.filter(({ ids }) => !ids.some((id) => OF_BALANCE.includes(id))),
];

const LABEL_COLUMNS = 18;
/** Where there is room for the longest name. */
const WIDE = 120;
const WIDE_LABEL_COLUMNS = 40;

function labelOf({ on, name, ...sure }: Sureness, width: number): string {
  if (on.kind === "passingPct") return apertureText(on.apertureUm);
  const unit = sure.determinable && sure.unit === "um" ? ", um" : "";
  const label = spoken(nameText(name));
  const room = (width >= WIDE ? WIDE_LABEL_COLUMNS : LABEL_COLUMNS) - unit.length;
  return (label.length > room ? clip(label, room) : label) + unit;
}

function tableBy(
  columns: readonly Column[],
  all: readonly Sureness[],
  included: ReadonlySet<ComponentId>,
  width: number,
): string[][] {
  const shown = columns.filter(({ ids }) => ids.some((id) => included.has(id)));
  const rows = all.flatMap((sure) => {
    if (!sure.determinable) return [];
    const parts = shown.map(({ ids }) => togetherU(sure.components, ids));
    return [
      [
        labelOf(sure, width),
        ...parts.map((u) => (u === null ? NO_FIGURE : spreadText(u, sure.unit))),
        sureText(sure, true),
      ],
    ];
  });
  const heading = all.some(isByDraws) ? say`all, 95.45 %` : say`all, k = 2`;
  return [["", ...shown.map(headingOf), heading], ...rows];
}

/**
 * The budget: a row for each sieve (passing %) and for each other number asked, a column for each component that is
 * included with its standard uncertainty, all together at k = 2 at the end. Where the width does not do, the four
 * components of the balance are one column.
 *
 * @param names further numbers, as limits are named
 */
export function budgetCells(howSure: HowSure, names: readonly string[], width: number): string[][] {
  const { budget } = howSure;
  const included = new Set(budget.components.flatMap((part) => (part.included ? [part.id] : [])));
  if (included.size === 0) return [[say`no source of uncertainty is known or counted`]];
  const all = [...budget.passing, ...names.flatMap((name) => sureOn(howSure, name) ?? [])];
  const apart = tableBy(APART, all, included, width);
  return inColumns(apart, 1).every((row) => columnsOf(row) <= width) ? apart : tableBy(TOGETHER, all, included, width);
}

/** The same as text. */
export const budgetTable = (howSure: HowSure, names: readonly string[], width: number): string[] =>
  inColumns(budgetCells(howSure, names, width), 1);

/** What is not included, one sentence for each reason. */
export function notIncludedWords({ budget }: Pick<HowSure, "budget">): string[] {
  const reasons = new Map<string, string[]>();
  for (const part of budget.components) {
    if (!part.included) reasons.set(part.reason, [...(reasons.get(part.reason) ?? []), inSentence(part.label)]);
  }
  return [...reasons].map(([reason, labels]) => say`not included: ${labels.join(", ")}, because ${spoken(reason)}`);
}

/** What was taken for each component. */
export const includedWords = ({ budget }: Pick<HowSure, "budget">): string =>
  budget.components
    .flatMap((part) => (part.included ? [`${inSentence(part.label)}: ${spoken(part.told)}`] : []))
    .join("; ");

const risk = (share: number | null): string => (share === null ? NO_FIGURE : chanceText(share));

function chanceRow({ judged, sure, decided }: SureLimit): string[] {
  return [
    spoken(nameText(judged.on)),
    boundsSaidOf(judged, sure),
    figureText(sure.value, sure.unit),
    decided.guard === 0 ? NO_FIGURE : spreadText(decided.guard, sure.unit),
    chanceText(decided.conformity),
    risk(decided.consumerRisk ?? decided.producerRisk),
    spoken(RESULT_WORDS[judged.result]),
  ];
}

const CHANCES = ["", phrase("limit"), phrase("found"), phrase("guard"), phrase("conforms"), phrase("risk"), ""];

/**
 * Every limit with its guard band, the chance that the true value meets it, and the risk of what was decided: of what is
 * within, that it should not have been (consumer's risk); of what is outside, that it should not have been (producer's).
 */
export const chanceCells = ({ limits }: HowSure): string[][] =>
  limits.length === 0 ? [] : [CHANCES.map(spoken), ...limits.map(chanceRow)];

/** The same as text. */
export const chanceTable = (howSure: HowSure): string[] => inColumns(chanceCells(howSure));

const EXPLAINED = [
  "conforms: the chance that the true value meets the limit.",
  "guard: how far inside (or outside) a result must be to be decided; – where the rule is simple.",
  "risk: of what is within, the chance that it should not be (the customer's risk); of what is outside, the chance that it should not be (the producer's). A borderline result is decided neither way.",
];

const OF_DRAWS =
  "conforms, guard and risk are by the normal distribution with u, that of the draws where they are used: chances are not counted among the draws.";

export const chanceExplained = (width: number, { byDraws }: Pick<HowSure, "byDraws"> = { byDraws: null }): string[] =>
  [...EXPLAINED, ...(byDraws === null ? [] : [OF_DRAWS])].flatMap((text) => wrapped(spoken(text), width, "    "));

/** How drawing compared with first-order propagation; empty where nothing was drawn. */
export function drawsWords({ byDraws }: HowSure, width: number): string[] {
  if (byDraws === null) return [];
  const { seed, draws, settled, comparisons } = byDraws;
  const apart = comparisons.filter(({ agree }) => !agree);
  const head = `Monte Carlo: ${draws} draws, seed ${seed}${settled ? "" : ", not settled: the ends of intervals still move"}; ${comparisons.length} numbers compared.`;
  const told =
    apart.length === 0
      ? "Both ways agree within the numerical tolerance: first order is used."
      : `They differ by more than the numerical tolerance at ${apart.map(({ name }) => nameText(name)).join(", ")}: there u is that of the draws, and two ends hold 95.45 % of them.`;
  return wrapped(`${head} ${told}`, width, "    ");
}
