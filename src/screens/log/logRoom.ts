import type { IndexRow } from "../../record/indexRow.ts";
import { DISPOSITIONS } from "../../record/test.ts";
import { sizeText } from "../../report/figures.ts";
import { columnsOf } from "../../terminal/sanitise.ts";
import { momentText } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { apart, type Cell, cells, type Line, line, span, whereText, windowAround } from "../line.ts";
import { clearOrLeave, filtered, filterField, moved } from "../list.ts";
import { type App, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { listed } from "../sentences.ts";
import { trendOf } from "../trend/trendPlace.ts";
import { dispositionNow, dispositionText, rowStanding, rowVerdict } from "../words.ts";
import { matching, monthsLeft, nextMonth, readingOn } from "./logPlace.ts";
import { letterOf, mark, marksLine, openDeck } from "./marks.ts";

function d50Words({ values, amended }: IndexRow): string {
  const d50 = values["percentileUm@50"];
  return d50 === undefined || amended?.voided ? "" : `d50 ${sizeText(d50)}`;
}

/** What stands behind the verdict has longer words in some languages; names give way to them. */
function columnsNow() {
  const isWordy = DISPOSITIONS.some((one) => columnsOf(dispositionText(one)) > 9);
  return isWordy ? { name: 8, standing: 11, became: 12 } : { name: 9, standing: 10, became: 10 };
}

/** Where there is no room for both, a test that was corrected says so in place of its d50. */
function figureCells(row: IndexRow, wide: boolean): Cell[] {
  const d50 = row.values["percentileUm@50"];
  const shown = d50 === undefined || row.amended?.voided ? "–" : sizeText(d50);
  const standing = rowStanding(row);
  const figure: Cell = { text: shown, columns: 8, align: "right" };
  const said: Cell = { text: ` ${standing}`, columns: wide ? 18 : columnsNow().standing, role: "warning" };
  if (wide) return [figure, said, { text: row.by, columns: 7 }];
  return standing === "" ? [figure, { text: "", columns: columnsNow().standing - 8 }] : [said];
}

function rowLine({ holds }: App, row: IndexRow, letter: string, chosen: boolean, wide: boolean): Line {
  const verdict = rowVerdict(row);
  const [moment, became] = [momentText(row.at), dispositionNow(holds, row)];
  const columns = columnsNow();
  const drawn = cells([
    { text: `${chosen ? "▸" : " "}${letter}`, columns: 3, role: "strong" },
    { text: moment, columns: 17 },
    apart(row.product, columns.name, chosen ? "strong" : "plain"),
    apart(row.lot, wide ? 14 : columns.name),
    apart(row.line, wide ? 14 : columns.name),
    { text: verdict.text, columns: 13, role: verdict.role },
    ...figureCells(row, wide),
    { text: ` ${became}`, columns: columns.became },
  ]);
  const parts = [
    row.product,
    say`lot ${row.lot}`,
    row.line,
    verdict.text,
    d50Words(row),
    rowStanding(row),
    row.by,
    became,
  ];
  return listed(drawn, chosen, `${letter} ${moment}`.trim(), parts);
}

function body(app: App, size: Size): readonly Line[] {
  const place = here(app, "log");
  const rows = matching(place);
  const room = Math.max(1, size.rows - 3);
  const { from, shown } = windowAround(rows, place.at, room);
  const filter: Line = [span(say`  find `, "dim"), span(`${place.filter}▌`, "field")];
  const told = place.reading
    ? say`reading ...`
    : monthsLeft(place).length > 0
      ? say`more as you scroll`
      : say`the whole log`;
  const counted = whereText(from, shown, rows) || `${rows.length}`;
  const tests = rows.length === 1 ? say`1 test` : say`${counted} tests`;
  const count = line(`  ${tests} · ${told}`, "dim");
  const drawn = shown.map((row, i) =>
    rowLine(app, row, letterOf(place, row), from + i === place.at, size.columns >= 100),
  );
  return [filter, marksLine(place), ...drawn, count];
}

/** Down, and near the end of what has been read another month comes. */
function move(app: App, by: number): Step {
  const place = here(app, "log");
  const rows = matching(place);
  const next = moved(place, by, rows.length);
  const month = nextMonth(place);
  const nearEnd = rows.length - next.at < 30 && month !== undefined && !place.reading;
  if (!nearEnd) return step({ ...app, message: null, place: next });
  return step({ ...app, message: null, place: { ...next, reading: true } }, { do: "readMonth", month });
}

const inHand = (app: App): IndexRow | undefined => matching(here(app, "log"))[here(app, "log").at];

function open(app: App): Step {
  const row = inHand(app);
  return row ? step(app, { do: "open", row }) : stay(app, say`nothing matches`);
}

function trendOfRow(app: App): Step {
  const row = inHand(app);
  return row ? trendOf(app, row.product, row.line, row.testId) : stay(app, say`nothing matches`);
}

const refilter = (app: App, change: (filter: string) => string): Step => {
  const place = here(app, "log");
  return readingOn(app, filtered(place, change(place.filter)));
};

const PAGE = 15;

export const LOG_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "open", help: "Open the record that the mark points at.", does: open },
  { keys: ["up"], word: "row", help: "The mark one row up.", does: (app) => move(app, -1) },
  { keys: ["down"], word: "row", help: "The mark one row down.", does: (app) => move(app, 1), quiet: true },
  {
    keys: ["escape"],
    word: "back",
    help: "Clears the filter; without one, back to the bench.",
    does: (app) => clearOrLeave(app, here(app, "log"), leave(app)),
  },
  {
    keys: ["f2", "ctrl+e"],
    word: "feed",
    help: "Mark this test as the feed of a screen deck; again to unmark.",
    does: (app) => mark(app, inHand(app), "feed"),
  },
  {
    keys: ["f3", "ctrl+o"],
    word: "over",
    help: "Mark it as the oversize, what went over the deck.",
    does: (app) => mark(app, inHand(app), "oversize"),
  },
  {
    keys: ["f4", "ctrl+u"],
    word: "under",
    help: "Mark it as the undersize, what went through.",
    does: (app) => mark(app, inHand(app), "undersize"),
  },
  {
    keys: ["f5", "ctrl+d"],
    word: "deck",
    help: "How well the deck of the three marked tests separates.",
    does: openDeck,
  },
  {
    keys: ["f6", "ctrl+t"],
    word: "trend",
    help: "How the product of this test has been running on its line, with this test in hand.",
    does: trendOfRow,
  },
  { keys: ["page up", "ctrl+b"], word: "page", help: "A page up.", does: (app) => move(app, -PAGE) },
  { keys: ["page down", "ctrl+f"], word: "page", help: "A page down.", does: (app) => move(app, PAGE), quiet: true },
];

/** The log: every recorded test, newest first, narrowed as one types. */
export const logRoom: Room = {
  title: () => ({ left: say`log`, right: line(say`type to find: product, lot, line, date, verdict, initials`, "dim") }),
  body,
  keys: () => LOG_KEYS,
  ...filterField(refilter, open),
  about: [
    "Every recorded test, newest first. Type any part of a product, lot, line, date (2026-11-24), verdict or initials;",
    "several words narrow further. Enter opens the record as it was judged, against the revision of its day. A test that",
    "was corrected, waived or voided says so and is listed with its latest figures: type that word to find it. Three tests",
    "marked as feed, oversize and undersize of a screen deck (same stack, same time) show how well the deck separates.",
  ],
};
