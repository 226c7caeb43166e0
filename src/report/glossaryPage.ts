import { SIGNS } from "../terminal/signs.ts";
import { inColumns, wrapped } from "./columns.ts";
import { placesOf } from "./glossary/places.ts";
import { TERMS, TERMS_BY_NAME, type Term, type TermId } from "./glossary/terms.ts";
import { STANDARD_IDS, standardsOf } from "./standards/standards.ts";
import { sourceText } from "./standards/told.ts";

const NAME_COLUMNS = 24;

/** Every term with its meaning, by name. */
export const termsPage = (width: number): string[] =>
  TERMS_BY_NAME.flatMap(({ name, meaning }) =>
    wrapped(meaning, width - NAME_COLUMNS).map((row, i) => (i === 0 ? name : "").padEnd(NAME_COLUMNS) + row),
  );

/** One term: its meaning, other words for it, where it is met. */
export function termPage(id: TermId, width: number): string[] {
  const { name, meaning, also = [] }: Term = TERMS[id];
  return [
    name,
    SIGNS.rule.repeat(width),
    ...wrapped(meaning, width),
    ...(also.length > 0 ? wrapped(`also: ${also.join(", ")}`, width, "  ") : []),
    ...wrapped(`on the screens: ${placesOf(id).join("; ")}`, width, "  "),
  ];
}

/** Where every figure comes from, by what it is about. */
export const standardsPage = (width: number): string[] =>
  STANDARD_IDS.map(standardsOf).flatMap(({ title, rows }) => [
    title,
    ...rows.flatMap((row) =>
      wrapped(`  ${row.figure}: ${sourceText(row)}`.trim(), width - 2, "  ").map((text) => `  ${text}`),
    ),
    "",
  ]);

/** What can be asked for besides values and topics. */
export const LISTS = inColumns([
  ["  keys", "the keys of every place of the screens; keys WORD: of the places with that word in their name"],
  ["  terms", "the words of the trade as they are used here; the name of one tells about it"],
  ["  standards", "where every figure comes from"],
]);
