import type { SieveChecked } from "../care/reference/referenceCheck.ts";
import { lengthWords } from "../care/words.ts";
import { roundHalfAway } from "../grading/rounding.ts";
import type { ReferenceCheck, ReferenceMaterial } from "../record/care.ts";
import type { Determination } from "../record/determination.ts";
import { describeAperture } from "../series/describe.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { inColumns } from "./columns.ts";
import { apertureText, NO_FIGURE, pctText, sizeText, valueText } from "./figures.ts";
import { indented } from "./paragraphs.ts";

const RESULT_WORDS: Readonly<Record<SieveChecked["result"], string>> = {
  agrees: `agrees ${SIGNS.pass}`,
  questionable: `questionable ${SIGNS.borderline}`,
  disagrees: `DISAGREES ${SIGNS.fail}`,
  "not judged": "not judged ?",
};

const CONVENTIONS = [
  "En compares with both uncertainties (agrees up to 1), z with the scatter between laboratories (questionable above 2, " +
    "disagrees from 3): ISO 13528, recalled. The worse of the two is told.",
  "A sieve sieves like the size at which the certified curve passes as much as it did; the range is that of both uncertainties.",
];

const score = (found: Determination): string => (found.determinable ? roundHalfAway(found.value, 2) : NO_FIGURE);
const end = (um: number | null): string => (um === null ? NO_FIGURE : sizeText(um, 1));

const scoreCells = (one: SieveChecked): string[] => [
  `  ${apertureText(one.apertureUm)}`,
  one.serial ?? NO_FIGURE,
  pctText(one.foundPct, 2),
  pctText(one.certifiedPct, 2),
  score(one.en),
  score(one.z),
  RESULT_WORDS[one.result],
];

function sizeCells({ apertureUm, effectiveUm, fromUm, toUm }: SieveChecked): string[] {
  const y = describeAperture(apertureUm).meanToleranceUm;
  const range = effectiveUm.determinable ? [end(fromUm), end(toUm)] : [NO_FIGURE, NO_FIGURE];
  return [
    `  ${apertureText(apertureUm)}`,
    valueText(effectiveUm, 1),
    ...range,
    y === null ? "no Y is known" : `+/- ${lengthWords(y)}`,
  ];
}

export interface ReferenceHead {
  readonly runName: string;
  /** The entry of the log; null where nothing was recorded. */
  readonly number: number | null;
  readonly width: number;
}

function certificateWords({ certificate, unit }: ReferenceMaterial): string {
  const { number, laboratory, day, due } = certificate;
  const parts = [unit, number === undefined ? "certificate" : `certificate ${number}`, `of ${day}`, laboratory];
  return [parts.filter(Boolean).join(", "), ...(due === undefined ? [] : [`relied on until ${due}`])].join("; ");
}

/** What a certified material says of each sieve, as a page. */
export function referencePage(
  { material }: ReferenceCheck,
  found: readonly SieveChecked[],
  { runName, number, width }: ReferenceHead,
): string {
  const off = found.filter(({ result }) => result === "disagrees" || result === "questionable");
  const advice = off.map(({ text }) => `! ${text}: look it over and measure it`);
  const scores = ["  aperture", "sieve", "passing", "certified", "En", "z", ""];
  const sizes = ["  aperture", "sieves like", "from", "to", "Y allows"];
  const lines = [
    `${material.code} ${material.name}, run as ${runName}`,
    ...indented(certificateWords(material), width),
    "",
    ...inColumns([scores, ...found.map(scoreCells)]),
    "",
    ...inColumns([sizes, ...found.map(sizeCells)]),
    "",
    ...advice.flatMap((text) => indented(text, width)),
    ...CONVENTIONS.flatMap((text) => indented(text, width)),
    number === null ? "not recorded: add --record" : `recorded as no. ${number}`,
  ];
  return `${lines.map((row) => drawable(row).trimEnd()).join("\n")}\n`;
}
