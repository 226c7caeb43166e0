import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span } from "../line.ts";
import type { App, Size } from "../place.ts";
import { here } from "../room.ts";
import { checksLines } from "./checksView.ts";
import { effectiveLines } from "./effectiveView.ts";
import { emptiesLines } from "./emptiesView.ts";
import { lifeLines } from "./lifeView.ts";
import { SIEVE_PAGES, type SievePage, type SievePlace, type WithCare } from "./places.ts";
import { shownOf } from "./shown.ts";
import { sieveLines } from "./sieveView.ts";

const PAGE_WORDS: Readonly<Record<SievePage, string>> = {
  sieve: phrase("state"),
  life: phrase("life"),
  empties: phrase("empties"),
  effective: phrase("effective aperture"),
  checks: phrase("by material"),
};

/** The place with what is known of sieves and balance. */
export const sievePlace = (app: App): WithCare<SievePlace> => ({ ...here(app, "sieve"), known: app.care ?? null });

/** The page in hand, every line of it. */
export function linesOf(place: WithCare<SievePlace>, size: Size): readonly Line[] {
  switch (place.page) {
    case "sieve":
      return sieveLines(place, size.columns);
    case "life":
      return lifeLines(place, size.columns);
    case "empties":
      return emptiesLines(place, size);
    case "effective":
      return effectiveLines(place, size.columns);
    case "checks":
      return checksLines(place, size);
  }
}

/** The pages there are, the one in hand standing out. */
const pagesLine = ({ page }: SievePlace): Line => [
  span("  "),
  ...SIEVE_PAGES.flatMap((one) => [
    span(
      one === page ? `[${spoken(PAGE_WORDS[one])}]` : ` ${spoken(PAGE_WORDS[one])} `,
      one === page ? "strong" : "dim",
    ),
    span(" "),
  ]),
];

/** The pages there are, then the one in hand. */
export function sieveBody(app: App, { columns, rows }: Size): readonly Line[] {
  const place = sievePlace(app);
  if (place.known !== null && shownOf(place) === null)
    return [[], line(say`  ${place.serial} is not registered: F3 in the list registers it`, "warning")];
  return [pagesLine(place), ...linesOf(place, { columns, rows: Math.max(1, rows - 1) })];
}
