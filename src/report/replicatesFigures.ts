import type { RepeatedFigure } from "../assess/repeatedTests.ts";
import { roundHalfAway, significant } from "../grading/rounding.ts";
import { figureWords } from "../shift/trendFigure.ts";
import { SIGNS } from "../terminal/signs.ts";
import type { GrubbsTest, OutlierWord } from "../uncertainty/replicates/grubbs.ts";
import type { GrubbsPair } from "../uncertainty/replicates/grubbsPair.ts";
import type { Honesty } from "../uncertainty/replicates/replicates.ts";
import { figure } from "../words/figures.ts";
import { phrase, say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { NO_FIGURE, valueText } from "./figures.ts";

export type Repeated = RepeatedFigure & { readonly determinable: true };

export const figureLabel = (on: string): string => spoken(figureWords(on).label);

/** A mean, with a digit more than a single result. */
export const meanText = (value: number, unit: string): string => valueText({ determinable: true, value, unit }, 1);

/** A scatter or a limit of repeatability in the unit of its figure; without one a dash. */
export function scatterText(scatter: number | null, unit: string): string {
  if (scatter === null) return NO_FIGURE;
  if (unit === "%") return figure(`${roundHalfAway(scatter, 2)} %`);
  return figure(unit === "1" ? significant(scatter, 3) : `${significant(scatter, 3)} ${unit}`);
}

function honestText(verdict: Honesty["verdict"]): string {
  if (verdict === "agrees") return say`${SIGNS.pass} as stated`;
  return verdict === "scatters more than stated" ? say`${SIGNS.invalid} more` : say`${SIGNS.borderline} less`;
}

/** The true scatter over the stated one, with 95 % confidence. */
export const timesStated = ({ found: { honesty } }: Repeated): string =>
  honesty === null
    ? NO_FIGURE
    : `${figure(significant(honesty.ratioLow, 2))} ${SIGNS.none} ${figure(significant(honesty.ratioHigh, 2))}`;

/** Whether the scatter is what the budget states, in a word and a sign. */
export const honestyCell = ({ found }: Repeated): string =>
  found.honesty ? honestText(found.honesty.verdict) : NO_FIGURE;

const OUTLIER: Readonly<Record<OutlierWord, string>> = {
  none: phrase("none"),
  straggler: phrase("straggler"),
  outlier: phrase("outlier"),
};

const SIGN: Readonly<Record<OutlierWord, string>> = {
  none: "",
  straggler: ` ${SIGNS.borderline}`,
  outlier: ` ${SIGNS.invalid}`,
};

export const outlierText = (word: OutlierWord): string => `${spoken(OUTLIER[word])}${SIGN[word]}`;

const four = (number: number): string => figure(roundHalfAway(number, 3));

/** Grubbs' test in words: which result, how far off, and the critical values. */
export const grubbsWords = (test: GrubbsTest, nameOf: (at: number) => string): string =>
  say`Grubbs: ${nameOf(test.at)} lies ${four(test.statistic)} standard deviations off, critical ${four(test.critical5)} at 5 %, ${four(test.critical1)} at 1 %: ${outlierText(test.word)}`;

const SIDES: Readonly<Record<GrubbsPair["side"], string>> = {
  "two largest": phrase("two largest"),
  "two smallest": phrase("two smallest"),
};

export const sideText = (side: GrubbsPair["side"]): string => spoken(SIDES[side]);

export const pairWords = (pair: GrubbsPair, nameOf: (at: number) => string): string =>
  say`Grubbs, a pair: without the ${sideText(pair.side)} (${pair.at.map(nameOf).join(", ")}) ${four(pair.statistic)} of the sum of squares is left, critical ${four(pair.critical5)} at 5 %, ${four(pair.critical1)} at 1 %: ${outlierText(pair.word)}`;
