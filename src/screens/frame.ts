import { wrapped } from "../report/columns.ts";
import { columnsOf, drawable } from "../terminal/sanitise.ts";
import { fits, SMALLEST } from "../terminal/size.ts";
import { ENGLISH } from "../words/manner.ts";
import { say } from "../words/say.ts";
import { inManner } from "../words/speaking.ts";
import { spoken } from "../words/spoken.ts";
import { GENERAL_KEYS } from "./general.ts";
import { keyText } from "./help/helpRoom.ts";
import { blankFrame } from "./idle.ts";
import { BLANK, clipped, type Line, line, type Span, span, spread, widthOf } from "./line.ts";
import type { App, Size } from "./place.ts";
import type { Binding, Room } from "./room.ts";
import { roomOf } from "./rooms.ts";
import { scrollBounds, scrolledBody } from "./scrolled.ts";
import { titleOf } from "./titleOf.ts";
import { tourLines } from "./tour/tour.ts";
import { standingWarning } from "./unsaved.ts";

/** Rows around the body besides message and footer: title and two rules. */
const CHROME_ROWS = 3;
/** Below this a place may have its rules' rows as well. */
const ROOMY_ROWS = 20;

const hint = ({ keys, word }: Binding): Span[] => [span(keyText(keys[0] ?? ""), "key"), span(` ${spoken(word)}`)];

/** Up and down together read "Up/Down". */
const joined = (binding: Binding): Span[] =>
  binding.keys[0] === "up"
    ? [span(say`Up/Down`, "key"), span(` ${spoken(binding.word)}`)]
    : binding.keys[0] === "page up"
      ? [span(say`Page up/down`, "key")]
      : hint(binding);

/** Where all keys can be shown: in a window as high as this, in so many rows at most. */
const ALL_KEYS_ROWS = 24;
const MOST_FOOTER_ROWS = 3;

const isBack = ({ keys, quiet }: Binding): boolean => keys.includes("escape") && !quiet;

/** Keys one after the other, as many to a row as fit. */
function inRows(hints: readonly Line[], columns: number): Line[] {
  const rows: Span[][] = [];
  for (const words of hints) {
    const last = rows.at(-1);
    if (last && widthOf(last) + 2 + widthOf(words) <= columns) last.push(span("  "), ...words);
    else rows.push([span(" "), ...words]);
  }
  return rows;
}

/**
 * All keys of a place that are not quiet, in as many rows as they need; in a low window the first ones, and an ellipsis. The
 * way back and help stand last, always.
 */
export function footer(keys: readonly Binding[], { columns, rows }: Size, helpKey = "?"): Line[] {
  const told = keys.filter((key) => !key.quiet && !isBack(key)).map(joined);
  const back = keys
    .filter(isBack)
    .slice(0, 1)
    .flatMap((key) => [...joined(key), span("  ")]);
  const last: Line = [...back, span(helpKey, "key"), span(` ${say`help`}`)];
  const most = rows >= ALL_KEYS_ROWS ? MOST_FOOTER_ROWS : 1;
  for (let kept = told.length; kept > 0; kept--) {
    const more: Line[] = kept < told.length ? [[span("…", "dim")]] : [];
    const drawn = inRows([...told.slice(0, kept), ...more, last], columns);
    if (drawn.length <= most) return drawn;
  }
  return inRows([last], columns);
}

const rule = (columns: number): Line => line("─".repeat(columns), "dim");

function tooSmall(size: Size): Line[] {
  const [least, is] = [`${SMALLEST.columns}x${SMALLEST.rows}`, `${size.columns}x${size.rows}`];
  return wrapped(say`needs ${least}, is ${is}: make it larger, what you typed is kept`, size.columns)
    .slice(0, Math.max(1, size.rows - 1))
    .map((text) => clipped(line(text), size.columns));
}

/** A message is never cut before what to do: it takes rows from the body as it needs them, one at least, four at most. */
const messageLines = (message: string | null, columns: number): Line[] =>
  wrapped(spoken(message ?? ""), columns - 2)
    .slice(0, 4)
    .map((text) => (text === "" ? BLANK : line(` ${text}`, "warning")));

/** What stays of a place's name however much stands beside it. */
const LEAST_NAME_COLUMNS = 12;

/** The title; what must not be cut comes after it, and the words before it are cut first. */
function titleLine({ mark, left, kept = "", right }: ReturnType<Room["title"]>, columns: number): Line {
  const named = [...(mark ? [span(" "), mark] : []), span(` ${drawable(left)}`, "title")];
  const least = Math.min(widthOf(named), LEAST_NAME_COLUMNS);
  const told = clipped(right, columns - least - columnsOf(drawable(kept)) - 2);
  const room = columns - widthOf(told) - 2 - columnsOf(drawable(kept));
  const name = [...clipped(named, Math.max(least, room)), span(drawable(kept), "title")];
  return spread(name, [...told, span(" ")], columns);
}

/** As it is drawn, so that its width is counted in what the terminal shows of it. */
const drawn = (l: Line): Line => l.map((s) => ({ ...s, text: drawable(s.text) }));

/** What stands around the body. Where keys need a second row, a blank message gives its own up. */
function chromeOf(app: App, size: Size) {
  const room = roomOf(app.place);
  const warning = standingWarning(app);
  const keys = [...room.keys(app), ...GENERAL_KEYS.filter((key) => key.word !== "help")];
  const footed = footer(keys, size, room.field(app) === "text" ? "F1" : "?");
  const tour = tourLines(app, size.columns);
  const isQuiet = app.message === null && (warning !== null || footed.length > 1 || tour.length > 0);
  const told = isQuiet ? [] : messageLines(app.message, size.columns);
  const message = [...(warning === null ? [] : messageLines(warning, size.columns)), ...told, ...tour];
  const ruled = size.rows >= ROOMY_ROWS || !room.bare?.(app);
  const bodyRows = size.rows - 1 - message.length - footed.length - (ruled ? CHROME_ROWS : 1);
  return { message, footed, ruled, bodyRows };
}

const bodyOf = (app: App, columns: number, rows: number): readonly Line[] =>
  roomOf(app.place).body(app, { columns, rows });

/** The same, scrolled no further than the body in this window reaches. */
export function withinBody(app: App, size: Size): App {
  if (!app.scrolled || !fits(size)) return app;
  const { bodyRows } = chromeOf(app, size);
  const { least, most } = scrollBounds(bodyOf(app, size.columns, bodyRows), bodyRows);
  return { ...app, scrolled: Math.max(least, Math.min(most, app.scrolled)) };
}

/**
 * The whole screen as lines: never higher than the terminal less one row, never wider than it, and with nothing in them
 * that a terminal would obey: all that is on the screens goes through here.
 */
export const frameOf = (app: App, size: Size): readonly Line[] =>
  inManner(app.manner ?? ENGLISH, () => frameIn(app, size));

function frameIn(app: App, size: Size): readonly Line[] {
  if (app.blank) return blankFrame(app, size);
  if (!fits(size)) return tooSmall(size);
  const { message, footed, ruled, bodyRows } = chromeOf(app, size);
  const body = scrolledBody(bodyOf(app, size.columns, bodyRows), bodyRows, app.scrolled ?? 0);
  const filled = [...body, ...Array.from({ length: bodyRows - body.length }, () => BLANK)];
  return [
    titleLine(titleOf(app), size.columns),
    ...(ruled ? [rule(size.columns)] : []),
    ...filled,
    ...message,
    ...(ruled ? [rule(size.columns)] : []),
    ...footed,
  ].map((l) => clipped(drawn(l), size.columns));
}
