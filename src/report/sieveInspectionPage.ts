import type { DirectionFound } from "../care/inspection/direction.ts";
import type { InspectionFound } from "../care/inspection/inspect.ts";
import { lengthWords, offsetWords, sieveName } from "../care/words.ts";
import { pctWords } from "../grading/words.ts";
import type { Sieve } from "../record/sieve.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { inColumns } from "./columns.ts";
import { NO_FIGURE } from "./figures.ts";
import { indented } from "./paragraphs.ts";

const RESULT_WORDS: Readonly<Record<InspectionFound["result"], string>> = {
  fit: `fit ${SIGNS.pass}`,
  "not fit": `NOT FIT ${SIGNS.fail}`,
  incomplete: "incomplete ?",
};

const held = (within: boolean | null): string => (within === null ? "" : within ? ` ${SIGNS.pass}` : ` ${SIGNS.fail}`);

/** What was measured along one direction. */
function cells(found: DirectionFound, nominalUm: number): string[] {
  const { direction, measured, meanUm, deviationUm, meanRangeUm, largestUm, shareAboveZ } = found;
  const range = meanRangeUm === null ? "" : ` +/- ${lengthWords(meanRangeUm)}`;
  return [
    `  ${direction}`,
    `${measured}`,
    `${lengthWords(meanUm)}${range}`,
    `${offsetWords(meanUm - nominalUm)}${held(found.meanWithinY)}`,
    deviationUm === null ? NO_FIGURE : lengthWords(deviationUm),
    `${offsetWords(largestUm - nominalUm)}${held(found.largestWithinX)}`,
    shareAboveZ === null ? NO_FIGURE : pctWords(100 * shareAboveZ),
  ];
}

function measuredRows({ directions, limits }: InspectionFound, nominalUm: number): string[] {
  if (directions.length === 0) return [];
  const head = ["  along", "n", "mean (95 %)", "off nominal", "s", "largest", "above Z"];
  const allowed =
    limits === null
      ? []
      : [["  limits", "", "", `Y ${lengthWords(limits.meanUm)}`, "", `X +${lengthWords(limits.maxUm)}`, ""]];
  return inColumns([head, ...directions.map((found) => cells(found, nominalUm)), ...allowed]);
}

export interface InspectionLook {
  /** The entry of the log that tells of it; null where nothing was recorded. */
  readonly number: number | null;
  readonly width: number;
}

/** What one inspection found, as a page: result, faults, what is missing, the figures, and how they are founded. */
export function inspectionPage(sieve: Sieve, found: InspectionFound, { number, width }: InspectionLook): string {
  const { result, faults, missing, notes, readToUm } = found;
  const out =
    result === "not fit" ? [`put it in quarantine: a sieve that failed is out of service until it is returned`] : [];
  const readTo = readToUm.determinable ? [`apertures are read to ${lengthWords(readToUm.value)}`] : [];
  const parts = [
    [`inspection of ${sieveName(sieve)}: ${RESULT_WORDS[result]}`],
    [...faults, ...out].flatMap((text) => indented(`! ${text}`, width)),
    missing.flatMap((text) => indented(`? ${text}`, width)),
    measuredRows(found, sieve.apertureUm),
    [...notes, ...(found.directions.length > 0 ? readTo : [])].flatMap((text) => indented(text, width)),
    [number === null ? "not recorded: only tried" : `recorded as no. ${number}`],
  ];
  return `${parts.flatMap((rows) => rows.map(drawable)).join("\n")}\n`;
}
