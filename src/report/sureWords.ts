import type { HowSure, SureLimit } from "../assess/howSure.ts";
import { roundHalfAway } from "../grading/rounding.ts";
import { nominalText } from "../series/apertureText.ts";
import type { FewGrains } from "../uncertainty/decision/fewGrains.ts";
import type { Help, WhatDecides } from "../uncertainty/decision/whatDecides.ts";
import { practicalG } from "../uncertainty/planning/practical.ts";
import {
  boundsSaid,
  boundsSaidOf,
  chanceText,
  distanceWords,
  figureText,
  inSentence,
  nameText,
  spreadText,
  spreadWords,
  sureText,
} from "./sureFigures.ts";

const counted = (grains: number): string => roundHalfAway(grains, 0);
const pctOf = (share: number): string => `${roundHalfAway(100 * share, 0)} %`;
const massText = (massG: number): string => (massG < 10_000 ? `${massG} g` : `${massG / 1000} kg`);

const BALANCE: Readonly<Record<string, string>> = {
  readability: "a balance with a finer step",
  repeatability: "a balance that repeats itself better",
  linearity: "a balance nearer to a straight line",
  drift: "weighing empty and full with less time in between",
};

const where = ({ side, apertureUm }: Pick<FewGrains, "side" | "apertureUm">): string =>
  side === "coarser" ? `on ${nominalText(apertureUm)} or coarser` : `finer than ${nominalText(apertureUm)}`;

/** One thing that would help, in words. */
function helpWords(help: Help, unit: string): string {
  switch (help.kind) {
    case "charge":
      return `a charge of ${massText(practicalG(help.toG))} instead of ${massText(Number(help.fromG.toPrecision(3)))} makes this limit decidable`;
    case "no charge is enough":
      return `a larger charge alone does not (±${spreadWords(2 * help.u, unit)} stays)`;
    case "grains":
      return `${counted(help.grains)} grains lie ${where(help)}, about ${counted(Math.ceil(help.needed))} would do`;
    case "balance":
      return BALANCE[help.component] ?? "a better balance";
    case "certificates":
      return "certified apertures of the sieves";
    case "close the loss":
      return "finding out what was lost, and where";
    case "sample larger":
      return "a larger or better mixed sample";
    case "sieve longer":
      return "sieving longer";
  }
}

/** What a few grains can't decide: "31 grains on 2.80 mm or coarser: too few to judge at most 5 %". */
export const fewGrainsWords = (few: FewGrains): string =>
  `${counted(few.grains)} grains ${where(few)}: too few to judge ${boundsSaid(few.limit)} % passing, about ${counted(Math.ceil(few.needed))} would do`;

const figure = ({ sure }: SureLimit): string => `${figureText(sure.value, sure.unit)}${sure.unit === "%" ? " %" : ""}`;

/** "passing 500 um 63.08 % ±2.34", or with the ends of its interval. */
function foundWords(limit: SureLimit): string {
  const sure = sureText(limit.sure);
  return `${nameText(limit.judged.on)} ${figure(limit)} ${sure.startsWith("±") ? sure : `(${sure})`}`;
}

/** Where the number lies: "inside 50 to 75 by 1.20 % points", "outside 2.9 to 3.15 mm by 0.14 mm". */
function placeWords({ judged, sure }: SureLimit, { toLimit }: WhatDecides): string {
  const [bounds, distance] = [boundsSaidOf(judged, sure), distanceWords(Math.abs(toLimit), sure)];
  return toLimit >= 0 ? `inside ${bounds} by ${distance}` : `outside ${bounds} by ${distance}`;
}

const guardWords = ({ sure, decided }: SureLimit): string =>
  sure.unit === "um" ? distanceWords(decided.guard, sure) : spreadText(decided.guard, sure.unit);

const mostly = ({ largest }: WhatDecides): string =>
  largest === null ? "" : `largest part: ${inSentence(largest.label)}, ${pctOf(largest.shareOfVariance)}`;

/** Why a borderline result is one, for somebody who has never heard of guard bands. */
function borderlineWords(limit: SureLimit, decides: WhatDecides): string {
  const { decided } = limit;
  const undecided = decides.toLimit >= 0 ? "not sure enough to pass" : "not sure enough to fail";
  const band = `less than its guard band of ${guardWords(limit)}: ${undecided}`;
  return `${placeWords(limit, decides)}, ${band}; chance that it conforms ${chanceText(decided.conformity)}`;
}

/** What acts on the largest part first; that no charge is enough is said last. */
function helpsWords({ helps }: WhatDecides, unit: string): string[] {
  if (helps.length === 0) return [];
  const late = (help: Help): number => (help.kind === "no charge is enough" ? 1 : 0);
  const words = helps.toSorted((a, b) => late(a) - late(b)).map((help) => helpWords(help, unit));
  return [`helps: ${words.join("; ")}`];
}

/** The limit that decides, by the name that both the verdict and the budget know. */
export const decidingLimit = ({ limits, decides }: HowSure): SureLimit | null =>
  limits.find(({ judged }) => judged.on === decides?.name) ?? null;

/**
 * What decides, in sentences: the limit nearest to its guard band and why, the largest part of its uncertainty, what would
 * help; then limits that too few grains judge. Empty without limits, and where the verdict was signed without uncertainty.
 */
export function decidesWords(howSure: HowSure): string[] {
  const { decides } = howSure;
  const limit = decidingLimit(howSure);
  const few = howSure.fewGrains.map(fewGrainsWords);
  if (!decides || !limit || limit.judged.result !== limit.decided.result) return few;
  const borderline = limit.judged.result === "borderline";
  const what = borderline ? `BORDERLINE: ${borderlineWords(limit, decides)}` : placeWords(limit, decides);
  const band = !borderline && limit.decided.guard > 0 ? `, guard band ${guardWords(limit)}` : "";
  const line = [`decides: ${foundWords(limit)}, ${what}${band}`, mostly(decides)].filter((part) => part !== "");
  return [line.join("; "), ...(borderline ? helpsWords(decides, limit.sure.unit) : []), ...few];
}
