import type { RepeatedFigure, RepeatedTests } from "../assess/repeatedTests.ts";
import { roundHalfAway, significant } from "../grading/rounding.ts";
import type { Honesty } from "../uncertainty/replicates/replicates.ts";
import { REPEATABILITY_LIMIT } from "../uncertainty/replicates/replicates.ts";
import { figure as inFigures } from "../words/figures.ts";
import { phrase, say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import {
  figureLabel,
  grubbsWords,
  meanText,
  pairWords,
  type Repeated,
  scatterText,
  sideText,
} from "./replicatesFigures.ts";

/** How the limits of repeatability and reproducibility come about. */
export const LIMIT_WORDS = `r = ${REPEATABILITY_LIMIT} s_r: two tests of one sample differ by more once in twenty pairs.`;

export const OUTLIER_WORDS =
  "Outliers by Grubbs' test, critical values of ISO 5725-2, table 5, computed: beyond the 5 % point a straggler, beyond the " +
  "1 % point an outlier. Nothing is left out of the figures: look for the cause.";

export const HONEST_WORDS =
  "Stated is what can differ between repeats of one sample on the same sieves, by the budget: balance, loss, count of grains. " +
  "Compared by chi-square at 5 %, two-sided: of twenty honest figures one is called otherwise by chance. Times: the true " +
  "scatter over the stated one, 95 % confidence.";

/** German keeps the capitals of its nouns within a sentence. */
function inPassing(label: string): string {
  const words = spoken(label);
  return words === label ? label.toLowerCase() : words;
}

/** What is missing from the stated uncertainty. */
export function statedWords({ stated }: RepeatedTests): string | null {
  const missing = stated.filter(({ included }) => !included).map(({ label }) => inPassing(label));
  return missing.length === 0
    ? null
    : say`Not in the stated uncertainty, since nothing is known of them: ${missing.join(", ")}.`;
}

const VERDICT: Readonly<Record<Honesty["verdict"], string>> = {
  agrees: phrase("agrees"),
  "scatters more than stated": phrase("scatters more than stated"),
  "scatters less than stated": phrase("scatters less than stated"),
};

function honestWords({ found, unit }: Repeated): string[] {
  const { honesty, sr } = found;
  if (honesty === null) return [];
  const { verdict, u, pValue, ratioLow, ratioHigh } = honesty;
  const chance = pValue < 0.001 ? say`p below 0.001` : `p ${inFigures(roundHalfAway(pValue, 3))}`;
  const [low, high] = [ratioLow, ratioHigh].map((ratio) => inFigures(significant(ratio, 2)));
  return [
    say`found ${scatterText(sr, unit)}, stated ${scatterText(u, unit)}: ${spoken(VERDICT[verdict])} (${chance})`,
    say`with ${found.count} tests the true scatter is ${low ?? ""} to ${high ?? ""} times the stated, 95 % sure`,
  ];
}

/** One figure in words: mean and repeatability, then whether its budget is honest, then outliers. */
export function repeatedWords(figure: RepeatedFigure, nameOf: (at: number) => string): readonly string[] {
  if (!figure.determinable) return [say`${figureLabel(figure.on)}: not compared: ${spoken(figure.reason)}`];
  const { found, unit } = figure;
  const { mean, sr, r, count, grubbs, grubbsPair } = found;
  return [
    say`${figureLabel(figure.on)}: mean of ${count} ${meanText(mean, unit)}, s_r ${scatterText(sr, unit)}, r ${scatterText(r, unit)}`,
    ...honestWords(figure),
    ...(grubbs === null
      ? [say`outliers can't be tested: that takes three tests that differ`]
      : [grubbsWords(grubbs, nameOf)]),
    ...(grubbsPair === null ? [] : [pairWords(grubbsPair, nameOf)]),
  ];
}

const isOut = ({ grubbs, grubbsPair }: Repeated["found"]): boolean =>
  (grubbs !== null && grubbs.word !== "none") || (grubbsPair !== null && grubbsPair.word !== "none");

/** Whether a figure says something besides what stands in a table. */
export const isNoteworthy = (figure: RepeatedFigure): boolean => !figure.determinable || isOut(figure.found);

function scatterWords(verdict: Honesty["verdict"], many: number, of: number): string {
  switch (verdict) {
    case "agrees":
      return say`${many} of ${of} figures scatter as the budget states`;
    case "scatters more than stated":
      return say`! ${many} of ${of} figures scatter more than the budget states: something is missing in it, or the tests were not of one material`;
    case "scatters less than stated":
      return say`${many} of ${of} figures scatter less than the budget states: it is rather too cautious`;
  }
}

function sharingWords(numbers: readonly number[]): string[] {
  if (numbers.length === 0) return [];
  const of = numbers.join(", ");
  return [say`no. ${of} share empty masses taken over: these can't differ between them and are not in what is stated`];
}

/** All figures in a sentence or two: whether the budget is honest, and what the tests are of. */
export function togetherWords({ figures, tests, sharingEmpties }: RepeatedTests): readonly string[] {
  const compared = figures.flatMap((figure) => (figure.determinable ? (figure.found.honesty ?? []) : []));
  const verdicts = ["scatters more than stated", "scatters less than stated", "agrees"] as const;
  const words = verdicts.flatMap((verdict) => {
    const many = compared.filter((one) => one.verdict === verdict).length;
    return many === 0 ? [] : [scatterWords(verdict, many, compared.length)];
  });
  const lots = new Set(tests.map(({ lot }) => lot));
  return [
    ...words,
    ...sharingWords(sharingEmpties),
    ...(lots.size > 1 ? [say`! tests of several lots: what differs between the lots scatters, too`] : []),
  ];
}

/** What stands out in a figure for a narrow column. */
export function outlierCell(figure: Repeated, nameOf: (at: number) => string): string {
  const { grubbs, grubbsPair } = figure.found;
  if (grubbs !== null && grubbs.word !== "none") return `${nameOf(grubbs.at)} ${spoken(grubbs.word)}`;
  if (grubbsPair !== null && grubbsPair.word !== "none")
    return grubbsPair.word === "outlier"
      ? say`${sideText(grubbsPair.side)} outliers`
      : say`${sideText(grubbsPair.side)} stragglers`;
  return "";
}
