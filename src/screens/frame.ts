import { wrapped } from "../report/columns.ts";
import { columnsOf, drawable } from "../terminal/sanitise.ts";
import { fits, SMALLEST } from "../terminal/size.ts";
import { GENERAL_KEYS } from "./general.ts";
import { keyText } from "./help/helpRoom.ts";
import { blankFrame } from "./idle.ts";
import { BLANK, clipped, type Line, line, type Span, span, spread, widthOf } from "./line.ts";
import type { App, Size } from "./place.ts";
import type { Binding, Room } from "./room.ts";
import { roomOf } from "./rooms.ts";
import { standingWarning } from "./unsaved.ts";

/** Rows around the body: title, rule, message, rule, footer. */
const CHROME_ROWS = 5;
/** Below this a place may have its rules' rows as well. */
const ROOMY_ROWS = 20;

const hint = ({ keys, word }: Binding): Span[] => [span(keyText(keys[0] ?? ""), "key"), span(` ${word}`)];

/** Up and down together read "Up/Down". */
const joined = (binding: Binding): Span[] =>
  binding.keys[0] === "up"
    ? [span("Up/Down", "key"), span(` ${binding.word}`)]
    : binding.keys[0] === "page up"
      ? [span("Page up/down", "key")]
      : hint(binding);

/** As many of the place's keys as fit, the first ones first; help always. */
export function footer(keys: readonly Binding[], columns: number, helpKey = "?"): Line {
  const help: Line = [span(helpKey, "key"), span(" help")];
  let room = columns - widthOf(help) - 2;
  const shown: Span[] = [span(" ")];
  for (const binding of keys.filter((b) => !b.quiet)) {
    const words = joined(binding);
    const width = widthOf(words) + 2;
    if (width > room) break;
    shown.push(...words, span("  "));
    room -= width;
  }
  return [...shown, ...help];
}

const rule = (columns: number): Line => line("─".repeat(columns), "dim");

function tooSmall(size: Size): Line[] {
  const sizes = `needs ${SMALLEST.columns}x${SMALLEST.rows}, is ${size.columns}x${size.rows}`;
  return wrapped(`${sizes}: make it larger, what you typed is kept`, size.columns)
    .slice(0, Math.max(1, size.rows - 1))
    .map((text) => clipped(line(text), size.columns));
}

/** A message is never cut before what to do: it takes rows from the body as it needs them, one at least, four at most. */
const messageLines = (message: string | null, columns: number): Line[] =>
  wrapped(message ?? "", columns - 2)
    .slice(0, 4)
    .map((text) => line(` ${text}`, "warning"));

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

/**
 * The whole screen as lines: never higher than the terminal less one row, never wider than it, and with nothing in them
 * that a terminal would obey: all that is on the screens goes through here.
 */
export function frameOf(app: App, size: Size): readonly Line[] {
  if (app.blank) return blankFrame(app, size);
  if (!fits(size)) return tooSmall(size);
  const room = roomOf(app.place);
  const warning = standingWarning(app);
  const told = app.message === null && warning !== null ? [] : messageLines(app.message, size.columns);
  const message = [...(warning === null ? [] : messageLines(warning, size.columns)), ...told];
  const ruled = size.rows >= ROOMY_ROWS || !room.bare?.(app);
  const bodyRows = size.rows - 1 - CHROME_ROWS - (message.length - 1) + (ruled ? 0 : 2);
  const body = room.body(app, { columns: size.columns, rows: bodyRows }).slice(0, bodyRows);
  const filled = [...body, ...Array.from({ length: bodyRows - body.length }, () => BLANK)];
  const keys = [...room.keys(app), ...GENERAL_KEYS.filter((k) => k.word !== "help")];
  return [
    titleLine(room.title(app), size.columns),
    ...(ruled ? [rule(size.columns)] : []),
    ...filled,
    ...message,
    ...(ruled ? [rule(size.columns)] : []),
    footer(keys, size.columns, room.field(app) === "text" ? "F1" : "?"),
  ].map((l) => clipped(drawn(l), size.columns));
}
