import type { EffectiveAperture } from "../care/effective/effectiveFromTests.ts";
import type { SuspectReading } from "../store/suspectReading.ts";
import { drawable } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { inColumns } from "./columns.ts";
import { apertureText, NO_FIGURE, sizesText } from "./figures.ts";
import { indented } from "./paragraphs.ts";

const AGAINST_Y: Readonly<Record<EffectiveAperture["againstY"], string>> = {
  within: `within Y ${SIGNS.pass}`,
  "reaches beyond": `range beyond Y ${SIGNS.borderline}`,
  beyond: `beyond Y ${SIGNS.fail}`,
  "not judged": "not judged ?",
};

const cells = (one: EffectiveAperture): string[] => [
  `  ${one.serial ?? NO_FIGURE}`,
  apertureText(one.apertureUm),
  ...sizesText([one.effectiveUm.determinable ? one.effectiveUm.value : null, one.fromUm, one.toUm], 1),
  one.suspect ? `SUSPECT ${SIGNS.invalid}` : "",
  AGAINST_Y[one.againstY],
];

/** Why nothing is said of a sieve. */
const silent = ({ serial, apertureUm, effectiveUm }: EffectiveAperture): string[] =>
  effectiveUm.determinable ? [] : [`${serial ?? apertureText(apertureUm)}: ${effectiveUm.reason}`];

/** What routine tests of one product say of its sieves, as a page. */
export function sievesSuspectsPage({ product, found, rightSince, testsBefore }: SuspectReading, width: number): string {
  const compared =
    testsBefore === 0
      ? "each sieve against its neighbours"
      : `against ${testsBefore} tests from when the stack was known to be right (${rightSince?.slice(0, 10)})`;
  const advice = found.sieves.flatMap((one) => one.advice ?? []);
  const lines = [
    `sieves of ${product} by its latest ${found.tests} tests, ${compared}`,
    ...inColumns([["  sieve", "nominal", "sieves like", "from", "to", "", "against Y"], ...found.sieves.map(cells)]),
    ...(advice.length === 0 ? ["  no sieve is suspect"] : advice.flatMap((text) => indented(`! ${text}`, width))),
    ...found.sieves.flatMap(silent).flatMap((text) => indented(text, width)),
    ...found.notes.flatMap((note) => indented(note, width)),
  ];
  return `${lines.map(drawable).join("\n")}\n`;
}
