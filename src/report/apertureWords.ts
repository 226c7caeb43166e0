import type { DrawnOver, DrawnSieve } from "../assess/drawnOver.ts";
import type { Assessment } from "../assess.ts";
import { meanText } from "../grading/words.ts";
import type { ApertureChoice, MeanApertureKnown } from "../record/meanAperture.ts";
import { inColumns } from "./columns.ts";
import { apertureText, NO_FIGURE, pctText } from "./figures.ts";

/** What a curve is drawn over, as a product chooses it. */
export const CHOICE_WORDS: Readonly<Record<ApertureChoice, string>> = {
  nominal: "nominal apertures",
  certified: "certified mean apertures",
  effective: "effective apertures by reference material",
};

/** "certificate C-7 of 2026-03-02, Invented Metrology", "reference check no. 214 of 2026-11-03, TH-RM1". */
export function restsOnWords({ restsOn }: Pick<MeanApertureKnown, "restsOn">): string {
  if ("check" in restsOn) {
    const { number, day, material } = restsOn.check;
    return `reference check no. ${number} of ${day}, ${material}`;
  }
  const { number, day, laboratory } = restsOn.certificate;
  return `${number === undefined ? "certificate" : `certificate ${number}`} of ${day}, ${laboratory}`;
}

const doubted = ({ doubt }: MeanApertureKnown): string => (doubt === undefined ? "" : `; ! ${doubt}`);

function cellsOf({ apertureUm, serial, known, lacks, passing }: DrawnSieve): string[] {
  return [
    `  ${apertureText(apertureUm)}`,
    serial ?? NO_FIGURE,
    known === null ? NO_FIGURE : meanText(known.meanUm),
    passing.determinable ? pctText(passing.value, 2) : NO_FIGURE,
    known === null ? `! ${lacks}` : `${restsOnWords(known)}${doubted(known)}`,
  ];
}

/** Each sieve with its mean aperture, what passes at its nominal one, and what the mean rests on. */
export const apertureRows = ({ of }: DrawnOver): string[] =>
  inColumns([["  aperture", "sieve", "mean", "at nominal %", "rests on"], ...of.map(cellsOf)]);

/** Why nothing can be read at the nominal apertures of sieves whose mean apertures are known, each reason once. */
export const beyondWords = ({ of }: DrawnOver): string[] => [
  ...new Set(of.flatMap(({ known, passing }) => (known === null || passing.determinable ? [] : [passing.reason]))),
];

/** The part of a page that says over which apertures the curve is drawn; nothing for nominal ones. */
export function pageApertures({ apertures }: Pick<Assessment, "apertures">): string[] {
  if (apertures === undefined) return [];
  return [
    `curve drawn over ${CHOICE_WORDS[apertures.choice]}`,
    ...apertureRows(apertures),
    ...beyondWords(apertures).map((text) => `  ${text}`),
  ];
}

/** What passes at the nominal aperture of a sieve, where the curve is drawn over other ones; null over nominal ones. */
export function atNominal({ apertures }: Pick<Assessment, "apertures">, apertureUm: number): number | null {
  const found = apertures?.of.find((sieve) => sieve.apertureUm === apertureUm)?.passing;
  return found?.determinable ? found.value : null;
}
