import { wrapped } from "../../report/columns.ts";
import { SMALLEST } from "../../terminal/size.ts";
import type { Role } from "../../terminal/theme.ts";
import { say } from "../../words/say.ts";
import { GENERAL_KEYS } from "../general.ts";
import { type Line, line, span, whereText } from "../line.ts";
import type { Place } from "../place.ts";
import { type App, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";

/** A key's name as it stands on the keyboard. */
export const keyText = (key: string): string =>
  key === "escape"
    ? "Esc"
    : key === " "
      ? "Space"
      : key.length === 1
        ? key
        : key.charAt(0).toUpperCase() + key.slice(1);

const KEY_COLUMNS = 22;

const keyLines = ({ keys, help }: Binding, columns: number): Line[] =>
  wrapped(help, columns - KEY_COLUMNS - 1).map((text, row) => [
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

/** The help page of a place, drawn from the same table as its footer. */
export function helpRoomWith(roomOf: RoomOf): Room {
  const linesFor = (app: App, columns: number): readonly Line[] => {
    const { of } = here(app, "help");
    const room = roomOf(of);
    const keys = room.keys({ ...app, place: of });
    return [
      ...paragraphs(room.about).flatMap((text) => wrappedLines(text, columns)),
      [],
      ...keys.flatMap((key) => keyLines(key, columns)),
      [],
      line("  everywhere", "strong"),
      ...GENERAL_KEYS.flatMap((key) => keyLines(key, columns)),
      [],
      ...wrappedLines(say`sizes in um below 1 mm and mm above; masses in g; percent by mass`, columns, "dim"),
      ...wrappedLines(
        say`dust, noise, heavy stacks: your site's rules and licensed practice come first`,
        columns,
        "dim",
      ),
    ];
  };
  const scroll = (app: App, by: number): Step => {
    const place = here(app, "help");
    const last = Math.max(0, linesFor(app, SMALLEST.columns).length - 5);
    return step({ ...app, message: null, place: { ...place, from: Math.max(0, Math.min(last, place.from + by)) } });
  };
  const keys: readonly Binding[] = [
    { keys: ["escape", "enter", "?"], word: "back", help: "Back to work.", does: (app) => step(leave(app)) },
    { keys: ["up"], word: "scroll", help: "A line up.", does: (app) => scroll(app, -1) },
    { keys: ["down"], word: "scroll", help: "A line down.", does: (app) => scroll(app, 1), quiet: true },
  ];
  return {
    title: (app) => ({ left: `help: ${here(app, "help").of.name}`, right: [] }),
    body: (app, size: Size) => {
      const lines = linesFor(app, size.columns);
      const from = Math.max(0, Math.min(here(app, "help").from, lines.length - 5));
      const shown = lines.slice(from, from + size.rows - 1);
      return shown.length === lines.length ? lines : [...shown, line(`  rows ${whereText(from, shown, lines)}`, "dim")];
    },
    keys: () => keys,
    field: () => "none",
    typed: (app) => stay(app),
    erased: (app) => stay(app),
    scanned: (app) => stay(app),
    about: [],
  };
}
