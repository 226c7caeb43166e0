import { wrapped } from "./columns.ts";
import type { KeyTold, ScreensHelp } from "./placeHelp.ts";

const KEY_COLUMNS = 24;

const keyRows = ({ keys, help }: KeyTold, width: number): string[] =>
  wrapped(help, width - KEY_COLUMNS).map((row, i) => (i === 0 ? `  ${keys}` : "").padEnd(KEY_COLUMNS) + row);

/** The keys of the places whose title has these words in it, of all places without words; null where none has them. */
export function keysPage(screens: ScreensHelp, words: string, width: number): string | null {
  const wanted = words.trim().toLowerCase();
  const places = screens.places.filter(({ title }) => title.toLowerCase().includes(wanted));
  if (places.length === 0) return null;
  const told = places.flatMap(({ title, tables }) => [
    title,
    ...tables.flatMap(({ when, keys }) => [
      ...(when === "" ? [] : [` ${when}`]),
      ...keys.flatMap((key) => keyRows(key, width)),
    ]),
    "",
  ]);
  const general = ["everywhere", ...screens.everywhere.flatMap((key) => keyRows(key, width)), ""];
  return [...told, ...general].join("\n");
}

/** The places that can be asked for. */
export const placeTitles = ({ places }: ScreensHelp): string => places.map(({ title }) => title).join("; ");
