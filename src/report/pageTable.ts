import type { Assessment } from "../assess.ts";
import type { JudgedLimit } from "../envelope/limit.ts";
import type { GradedFraction } from "../grading/grading.ts";
import { columnsOf } from "../terminal/sanitise.ts";
import { atNominal } from "./apertureWords.ts";
import { besideLimit } from "./besideLimit.ts";
import { inColumns } from "./columns.ts";
import { apertureText, massText, pctText } from "./figures.ts";
import { isByDraws, sureAt, sureText } from "./sureFigures.ts";
import { boundsText, RESULT_WORDS } from "./verdictWords.ts";

const PCT_DECIMALS = 2;
const pct = (shown: number, more = 0) => pctText(shown, PCT_DECIMALS + more);

/** The first limit on what passes this sieve. */
const limitAt = ({ verdict }: Assessment, apertureUm: number): JudgedLimit | null =>
  verdict.limits.find((limit) => limit.on === `passingPct@${apertureUm}`) ?? null;

export const limitWords = (limit: JudgedLimit, show: (bound: number) => string): string =>
  `${boundsText(limit, show)}  ${RESULT_WORDS[limit.result]}`;

/** With draws some rows have two ends: what all of them have in common is how much lies within. */
const sureHeading = ({ howSure }: Assessment): string =>
  howSure.budget.passing.some(isByDraws) ? "± or 95.45 %" : "± k = 2";

/** With or without the column of what is coarser, which is 100 % less what passes. */
function tableOf(assessment: Assessment, decimals: number, coarser: boolean): string[] {
  const { fractions, howSure } = assessment;
  const weighed = fractions.some((fraction) => fraction.emptyG !== null);
  const mass = (massG: number | null) => massText(massG, decimals);
  const over = assessment.apertures !== undefined;
  const row = (fraction: GradedFraction) => {
    const limit = limitAt(assessment, fraction.apertureUm);
    const nominalPct = over ? atNominal(assessment, fraction.apertureUm) : fraction.passingPct;
    const deciding = nominalPct === null ? "" : besideLimit(nominalPct, limit, pct);
    return [
      apertureText(fraction.apertureUm),
      ...(weighed ? [mass(fraction.emptyG), mass(fraction.fullG)] : []),
      mass(fraction.netG),
      pct(fraction.retainedPct),
      ...(coarser ? [pct(fraction.coarserPct)] : []),
      ...(over ? [pct(fraction.passingPct), deciding] : [deciding]),
      fraction.apertureUm === 0 ? "" : sureText(sureAt(howSure, fraction.apertureUm)),
      limit ? limitWords(limit, String) : "",
    ];
  };
  const masses = weighed ? ["empty", "full", "net"] : ["net"];
  const envelope = fractions.some((fraction) => limitAt(assessment, fraction.apertureUm)) ? "envelope" : "";
  const heading = [
    "aperture",
    ...masses,
    "retained",
    ...(coarser ? ["coarser"] : []),
    "passing",
    ...(over ? ["at nominal"] : []),
    sureHeading(assessment),
    envelope,
  ];
  return inColumns([heading, ...fractions.map(row)]);
}

/**
 * The fractions, coarsest sieve first, the pan last: masses in g with the balance's decimals, percentages with two, how
 * sure what passes is, and beside each sieve the limit on what passes it. Where the curve is drawn over other apertures than
 * nominal ones, what passes at the nominal one stands beside what passed the sieve, and is what a limit is put on. Columns in which nothing stands are left out;
 * where the width does not do, so is what is coarser.
 */
export function pageTable(assessment: Assessment, decimals: number, width: number): string[] {
  const whole = tableOf(assessment, decimals, true);
  const fits = whole.every((row) => columnsOf(row) <= width);
  return ["masses in g, shares in % by mass", ...(fits ? whole : tableOf(assessment, decimals, false))];
}
