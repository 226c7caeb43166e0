import type { RepeatedFigure, RepeatedTests } from "../assess/repeatedTests.ts";
import { roundHalfAway, significant } from "../grading/rounding.ts";
import type { Honesty } from "../uncertainty/replicates/replicates.ts";
import { REPEATABILITY_LIMIT } from "../uncertainty/replicates/replicates.ts";
import { figureLabel, grubbsWords, meanText, pairWords, type Repeated, scatterText } from "./replicatesFigures.ts";

/** How the limits of repeatability and reproducibility come about. */
export const LIMIT_WORDS = `r = ${REPEATABILITY_LIMIT} s_r: two tests of one sample differ by more once in twenty pairs.`;

export const OUTLIER_WORDS =
  "Outliers by Grubbs' test, critical values of ISO 5725-2, table 5, computed: beyond the 5 % point a straggler, beyond the " +
  "1 % point an outlier. Nothing is left out of the figures: look for the cause.";

export const HONEST_WORDS =
  "Stated is what can differ between repeats of one sample on the same sieves, by the budget: balance, loss, count of grains. " +
  "Compared by chi-square at 5 %, two-sided: of twenty honest figures one is called otherwise by chance. Times: the true " +
  "scatter over the stated one, 95 % confidence.";

/** What is missing from the stated uncertainty. */
export function statedWords({ stated }: RepeatedTests): string | null {
  const missing = stated.filter(({ included }) => !included).map(({ label }) => label.toLowerCase());
  return missing.length === 0
    ? null
    : `Not in the stated uncertainty, since nothing is known of them: ${missing.join(", ")}.`;
}

function honestWords({ found, unit }: Repeated): string[] {
  const { honesty, sr } = found;
  if (honesty === null) return [];
  const { verdict, u, pValue, ratioLow, ratioHigh } = honesty;
  const chance = pValue < 0.001 ? "below 0.001" : roundHalfAway(pValue, 3);
  return [
    `found ${scatterText(sr, unit)}, stated ${scatterText(u, unit)}: ${verdict} (p ${chance})`,
    `with ${found.count} tests the true scatter is ${significant(ratioLow, 2)} to ${significant(ratioHigh, 2)} times the stated, 95 % sure`,
  ];
}

/** One figure in words: mean and repeatability, then whether its budget is honest, then outliers. */
export function repeatedWords(figure: RepeatedFigure, nameOf: (at: number) => string): readonly string[] {
  if (!figure.determinable) return [`${figureLabel(figure.on)}: not compared: ${figure.reason}`];
  const { found, unit } = figure;
  const { mean, sr, r, count, grubbs, grubbsPair } = found;
  return [
    `${figureLabel(figure.on)}: mean of ${count} ${meanText(mean, unit)}, s_r ${scatterText(sr, unit)}, r ${scatterText(r, unit)}`,
    ...honestWords(figure),
    ...(grubbs === null
      ? ["outliers can't be tested: that takes three tests that differ"]
      : [grubbsWords(grubbs, nameOf)]),
    ...(grubbsPair === null ? [] : [pairWords(grubbsPair, nameOf)]),
  ];
}

const isOut = ({ grubbs, grubbsPair }: Repeated["found"]): boolean =>
  (grubbs !== null && grubbs.word !== "none") || (grubbsPair !== null && grubbsPair.word !== "none");

/** Whether a figure says something besides what stands in a table. */
export const isNoteworthy = (figure: RepeatedFigure): boolean => !figure.determinable || isOut(figure.found);

const SCATTER: Readonly<Record<Honesty["verdict"], string>> = {
  agrees: "as the budget states",
  "scatters more than stated":
    "more than the budget states: something is missing in it, or the tests were not of one material",
  "scatters less than stated": "less than the budget states: it is rather too cautious",
};

/** All figures in a sentence or two: whether the budget is honest, and what the tests are of. */
export function togetherWords({ figures, tests }: RepeatedTests): readonly string[] {
  const compared = figures.flatMap((figure) => (figure.determinable ? (figure.found.honesty ?? []) : []));
  const verdicts = ["scatters more than stated", "scatters less than stated", "agrees"] as const;
  const words = verdicts.flatMap((verdict) => {
    const many = compared.filter((one) => one.verdict === verdict).length;
    const sign = verdict === "scatters more than stated" ? "! " : "";
    return many === 0 ? [] : [`${sign}${many} of ${compared.length} figures scatter ${SCATTER[verdict]}`];
  });
  const lots = new Set(tests.map(({ lot }) => lot));
  return [...words, ...(lots.size > 1 ? ["! tests of several lots: what differs between the lots scatters, too"] : [])];
}

/** What stands out in a figure for a narrow column. */
export function outlierCell(figure: Repeated, nameOf: (at: number) => string): string {
  const { grubbs, grubbsPair } = figure.found;
  if (grubbs !== null && grubbs.word !== "none") return `${nameOf(grubbs.at)} ${grubbs.word}`;
  if (grubbsPair !== null && grubbsPair.word !== "none") return `${grubbsPair.side} ${grubbsPair.word}s`;
  return "";
}
