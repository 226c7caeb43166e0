import { allowedWords } from "../../report/trendWords.ts";
import type { Figure } from "../../shift/trendFigure.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { apart, cells, type Line, line, type Span, span, whereLine, windowAround } from "../line.ts";
import { clearOrLeave, filtered, filterField, matches, moved } from "../list.ts";
import { type App, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { figuresHere } from "./looked.ts";
import { put, trendTo } from "./trendPlace.ts";

/** A product on a line, and how often it was tested there lately. */
interface Running {
  readonly product: string;
  readonly line: string;
  readonly lately: number;
}

/** What was tested lately in front, then every product on every line of the station. */
function runningHere(app: App): readonly Running[] {
  const recent = app.recent ?? [];
  const pairs = [
    ...recent.map(({ product, line: on }) => ({ product, line: on })),
    ...app.products.flatMap(({ code }) => app.station.lines.map((on) => ({ product: code, line: on }))),
  ];
  const isSame = (a: Omit<Running, "lately">, b: Omit<Running, "lately">) =>
    a.product === b.product && a.line === b.line;
  return pairs
    .filter((pair, i) => pairs.findIndex((one) => isSame(one, pair)) === i)
    .map((pair) => ({ ...pair, lately: recent.filter((row) => isSame(row, pair)).length }));
}

const STANDING = { limited: phrase("limited"), shown: phrase("shown"), other: "" } as const;

interface Item {
  readonly row: (chosen: boolean) => Line;
  readonly take: (app: App) => Step;
}

const figureItem = (figure: Figure): Item => ({
  row: (chosen) =>
    cells([
      { text: chosen ? "▸" : "", columns: 3, role: "strong" },
      apart(spoken(figure.label), 30, chosen ? "strong" : "plain"),
      apart(spoken(STANDING[figure.standing]), 10, "dim"),
      { text: figure.standing === "limited" ? allowedWords(figure) : "", columns: 30, role: "dim" },
    ]),
  take: (app) => put(app, { page: "chart", on: figure.on, at: 0, filter: "" }),
});

const runningItem = ({ product, line: on, lately }: Running): Item => ({
  row: (chosen) =>
    cells([
      { text: chosen ? "▸" : "", columns: 3, role: "strong" },
      apart(product, 14, chosen ? "strong" : "plain"),
      apart(on, 24),
      { text: lately > 0 ? say`${lately} of the latest tests` : say`not tested lately`, columns: 24, role: "dim" },
    ]),
  take: (app) => trendTo(app, product, on),
});

/** What matches what is typed. */
function itemsHere(app: App): readonly Item[] {
  const { page, filter } = here(app, "trend");
  if (page === "products")
    return runningHere(app)
      .filter((one) => matches(filter, [one.product, one.line]))
      .map(runningItem);
  return figuresHere(app)
    .filter((one) =>
      matches(filter, [one.label, spoken(one.label), one.on], [STANDING[one.standing], spoken(STANDING[one.standing])]),
    )
    .map(figureItem);
}

export function listBody(app: App, size: Size): readonly Line[] {
  const { filter, at } = here(app, "trend");
  const items = itemsHere(app);
  const { from, shown } = windowAround(items, at, Math.max(1, size.rows - 2));
  const find: Line = [span(say`  find `, "dim"), span(`${filter}▌`, "field")] satisfies Span[];
  const none = items.length === 0 ? [line(say`    nothing matches`, "dim")] : [];
  return [find, whereLine(from, shown, items), ...shown.map((item, i) => item.row(from + i === at)), ...none];
}

const move = (app: App, by: number): Step => put(app, moved(here(app, "trend"), by, itemsHere(app).length));

function take(app: App): Step {
  const item = itemsHere(app)[here(app, "trend").at];
  return item ? item.take(app) : stay(app, say`nothing matches`);
}

function back(app: App): Step {
  const place = here(app, "trend");
  return clearOrLeave(app, place, { ...app, message: null, place: { ...place, page: "chart", at: 0 } });
}

const refilter = (app: App, change: (filter: string) => string): Step => {
  const place = here(app, "trend");
  return step({ ...app, message: null, place: filtered(place, change(place.filter)) });
};

const PAGE = 12;

export const LIST_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "choose", help: "The trend of what the mark points at.", does: take },
  { keys: ["up"], word: "row", help: "The mark one row up.", does: (app) => move(app, -1) },
  { keys: ["down"], word: "row", help: "The mark one row down.", does: (app) => move(app, 1), quiet: true },
  { keys: ["page up", "ctrl+b"], word: "page", help: "A page up.", does: (app) => move(app, -PAGE) },
  { keys: ["page down", "ctrl+f"], word: "page", help: "A page down.", does: (app) => move(app, PAGE), quiet: true },
  { keys: ["escape"], word: "back", help: "Clears the filter; without one, back to the chart.", does: back },
];

export const listField: Pick<Room, "field" | "typed" | "erased" | "scanned"> = filterField(refilter, take);
