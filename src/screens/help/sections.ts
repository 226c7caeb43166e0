import type { Product } from "../../record/product.ts";
import { wrapped } from "../../report/columns.ts";
import { PLACES, type PlaceTold } from "../../report/glossary/places.ts";
import { termOf } from "../../report/glossary/terms.ts";
import { rulesFor, type StandardId, standardsOf } from "../../report/standards/standards.ts";
import { CHECK, RECALLED, type Standard, sourceText } from "../../report/standards/told.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span } from "../line.ts";
import type { HelpPlace } from "../place.ts";

type Helped = HelpPlace["of"]["name"];

/** A place that has nothing told of it does not compile. */
const TOLD: Readonly<Record<Helped, PlaceTold>> = PLACES;

export const toldOf = (name: Helped): PlaceTold => TOLD[name];

const NAME_COLUMNS = 22;

/** A name in its column, what is told beside it; a longer name stands above. */
function rows(name: string, told: string, columns: number): Line[] {
  const beside = wrapped(told, columns - NAME_COLUMNS - 1);
  const text = beside.map((row) => span(row));
  if (name.length > NAME_COLUMNS - 4)
    return [line(`  ${name}`, "strong"), ...text.map((row): Line => [span(" ".repeat(NAME_COLUMNS)), row])];
  return text.map((row, i): Line => [span((i === 0 ? `  ${name}` : "").padEnd(NAME_COLUMNS), "strong"), row]);
}

/** The words of the trade that this place uses, from the one glossary. */
export const termLines = (name: Helped, columns: number): Line[] => [
  line(say`  terms used here`, "strong"),
  ...toldOf(name)
    .terms.map(termOf)
    .flatMap((term) => rows(spoken(term.name), spoken(term.meaning), columns)),
];

const proseLines = (text: string, columns: number): Line[] =>
  wrapped(text, columns - 5, "  ").map((row) => line(`    ${row}`));

/** A publication keeps its name in every language; what is to be done with one that is only recalled is said in each. */
const sourceSaid = (row: Standard): string =>
  sourceText(row).replaceAll(RECALLED, say`recalled: check your copy`).replaceAll(CHECK, say`check your copy`);

/** The product whose test or page it is; null where a place is of no single one. */
function productOf(place: HelpPlace["of"]): Product | null {
  if (place.name === "run" || place.name === "sign") return place.run.draft.product;
  if (place.name === "record") return place.entry.test.product;
  return place.name === "product" || place.name === "plan" ? place.product : null;
}

/** Where the product is known, the rules in force for it and no others. */
function rowsFor(place: HelpPlace["of"], id: StandardId): readonly Standard[] {
  const product = id === "procedure" ? productOf(place) : null;
  if (product === null) return standardsOf(id).rows;
  const row = rulesFor(product);
  return [row.source === "" ? { ...row, source: say`no limits of its own, and no rule set named` } : row];
}

/** Where the figures of this place come from: each row is the code's own word on it. */
export const sourceLines = (place: HelpPlace["of"], columns: number): Line[] => [
  line(say`  where its figures come from`, "strong"),
  ...toldOf(place.name).standards.flatMap((id) => [
    line(`  ${spoken(standardsOf(id).title)}`, "dim"),
    ...rowsFor(place, id).flatMap((row) => proseLines(`${spoken(row.figure)}: ${sourceSaid(row)}`, columns)),
  ]),
];
