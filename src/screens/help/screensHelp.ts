import { PLACES, type PlaceToldId } from "../../report/glossary/places.ts";
import type { KeyTold, ScreensHelp } from "../../report/placeHelp.ts";
import { GENERAL_KEYS } from "../general.ts";
import type { Binding } from "../room.ts";
import { ROOMS } from "../rooms.ts";
import { keyText } from "./helpRoom.ts";
import { keyTablesOf } from "./keyTables.ts";

const told = ({ keys, help }: Binding): KeyTold => ({ keys: keys.map(keyText).join(", "), help });

/** Without the tables that some of it holds. */
const prose = (about: readonly string[]): string =>
  about
    .filter((text) => !text.includes("  "))
    .join(" ")
    .trim();

/** All that the screens tell of themselves, in the order of the work, for `help keys` and the man page. */
export const screensHelp = (): ScreensHelp => ({
  places: (Object.keys(PLACES) as readonly PlaceToldId[]).map((name) => ({
    title: PLACES[name].title,
    about: prose(ROOMS[name].about),
    tables: keyTablesOf(name).map(({ when, keys }) => ({ when, keys: keys.map(told) })),
  })),
  everywhere: GENERAL_KEYS.map(told),
});
