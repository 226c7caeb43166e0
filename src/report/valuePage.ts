import type { CharacteristicValue } from "../grading/values/characteristicValue.ts";
import type { Determination } from "../record/determination.ts";
import { say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { wrapped } from "./columns.ts";
import { valueText } from "./figures.ts";
import { reasonText } from "./shown.ts";

const LABEL_COLUMNS = 12;

const paragraph = (label: string, text: string, columns: number): string[] =>
  wrapped(spoken(text), columns - LABEL_COLUMNS).map((row, i) => (i === 0 ? label : "").padEnd(LABEL_COLUMNS) + row);

/** What there is to tell about a value besides its number. */
export type ToldOfValue = Pick<CharacteristicValue, "formula" | "convention" | "needs" | "source" | "words">;

const withWords = ({ words }: ToldOfValue, value: number, text: string): string =>
  words === undefined ? text : `${text}: ${words(value)}`;

/**
 * All that is told about one characteristic value, the same on screen, in `help VALUE` and in the docs: what was found
 * (of a test, if there is one), the formula in words, the convention, what it needs, where it comes from.
 */
export function valuePage(row: ToldOfValue, found: Determination | null, columns: number): string[] {
  const value =
    found === null
      ? []
      : paragraph(
          say`here`,
          found.determinable ? withWords(row, found.value, valueText(found)) : reasonText(found.reason),
          columns,
        );
  const assumptions = found?.determinable ? (found.assumptions ?? []) : [];
  return [
    ...value,
    ...assumptions.flatMap((text) => paragraph(say`rests on`, text, columns)),
    ...paragraph(say`formula`, row.formula, columns),
    ...paragraph(say`convention`, row.convention, columns),
    ...paragraph(say`needs`, row.needs, columns),
    ...paragraph(
      say`source`,
      row.source.replace(/\bmemory\b/g, () => say`memory`),
      columns,
    ),
  ];
}
