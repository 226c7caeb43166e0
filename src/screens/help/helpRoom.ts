import { wrapped } from "../../report/columns.ts";
import type { Role } from "../../terminal/theme.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { GENERAL_KEYS } from "../general.ts";
import { BLANK, type Line, line, span } from "../line.ts";
import type { Place } from "../place.ts";
import { type App, leave, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { sourceLines, termLines, toldOf } from "./sections.ts";

/** A key's name as it stands on the keyboard. */
export function keyText(key: string): string {
  switch (key) {
    case "escape":
      return "Esc";
    case " ":
      return say`Space`;
    case "left":
      return say`Left`;
    case "right":
      return say`Right`;
    case "up":
      return say`Up`;
    case "down":
      return say`Down`;
    case "home":
      return say`Home`;
    case "end":
      return say`End`;
    case "page up":
      return say`Page up`;
    case "page down":
      return say`Page down`;
    default:
      return key.length === 1 ? key : key.charAt(0).toUpperCase() + key.slice(1);
  }
}

const KEY_COLUMNS = 22;

const keyLines = ({ keys, help }: Binding, columns: number): Line[] =>
  wrapped(spoken(help), columns - KEY_COLUMNS - 1).map((text, row) => [
    span((row === 0 ? `  ${keys.map(keyText).join(", ")}` : "").padEnd(KEY_COLUMNS), "key"),
    span(text),
  ]);

/** Shorter lines end where they were meant to; two blanks side by side are a table. */
const runsOn = (text: string): boolean => text.length >= 60 && !text.includes("  ");

/** Lines of prose put together again, so that they break where this window ends. */
function paragraphs(about: readonly string[]): string[] {
  const texts: string[] = [];
  for (const [i, text] of about.entries()) {
    const joins = text !== "" && !text.includes("  ") && runsOn(about[i - 1] ?? "");
    if (joins) texts.push(`${texts.pop() ?? ""} ${text}`);
    else texts.push(text);
  }
  return texts;
}

const wrappedLines = (text: string, columns: number, role: Role = "plain"): Line[] =>
  wrapped(text, columns - 3).map((row) => line(`  ${row}`, role));

type RoomOf = (place: Place) => Room;

const allKeys = (keys: readonly Binding[], columns: number): Line[] => keys.flatMap((key) => keyLines(key, columns));

/** The sections of a help page, in the order in which they stand. */
function sectionsOf(roomOf: RoomOf, app: App, columns: number) {
  const { of } = here(app, "help");
  const room = roomOf(of);
  const about = paragraphs(room.about.map(spoken)).flatMap((text) => wrappedLines(text, columns));
  const keys = allKeys(room.keys({ ...app, place: of }), columns);
  const general = [line(say`  everywhere`, "strong"), ...allKeys(GENERAL_KEYS, columns)];
  const safety = [
    ...wrappedLines(say`sizes in um below 1 mm and mm above; masses in g; percent by mass`, columns, "dim"),
    ...wrappedLines(say`dust, noise, heavy stacks: your site's rules and licensed practice come first`, columns, "dim"),
  ];
  return [about, keys, general, termLines(of.name, columns), sourceLines(of, columns), safety];
}

const TERMS_AT = 3;
const SOURCES_AT = 4;

/** The help page of a place: what it is for, its keys from the same table as its footer, its terms, where its figures come from. */
export function helpRoomWith(roomOf: RoomOf): Room {
  /** To where a section begins. */
  const jumped = (app: App, section: number): Step => {
    const sections = sectionsOf(roomOf, app, app.window?.columns ?? 80);
    const scrolled = sections.slice(0, section).reduce((rows, lines) => rows + lines.length + 1, 0);
    return step({ ...app, message: null, scrolled });
  };
  const keys: readonly Binding[] = [
    { keys: ["escape", "enter", "?"], word: "back", help: "Back to work.", does: (app) => step(leave(app)) },
    {
      keys: ["k"],
      word: "keys",
      help: "To the keys.",
      does: (app) => jumped(app, 0),
    },
    {
      keys: ["t"],
      word: "terms",
      help: "To the terms that are used here.",
      does: (app) => jumped(app, TERMS_AT),
    },
    {
      keys: ["s"],
      word: "sources",
      help: "To where the figures of this place come from.",
      does: (app) => jumped(app, SOURCES_AT),
    },
  ];
  return {
    title: (app) => ({ left: say`help: ${spoken(toldOf(here(app, "help").of.name).title)}`, right: [] }),
    body: (app, { columns }) => sectionsOf(roomOf, app, columns).flatMap((lines) => [...lines, BLANK]),
    keys: () => keys,
    field: () => "none",
    typed: (app) => stay(app),
    erased: (app) => stay(app),
    scanned: (app) => stay(app),
    about: [],
  };
}
