import { TREND_VIEWS } from "../../report/trendDrawing.ts";
import { otherUnit, windowOf, type Zoom, zoomed } from "../../shift/trendWindow.ts";
import { say } from "../../words/say.ts";
import { type App, leave, type Step, stay, step } from "../place.ts";
import { type Binding, here } from "../room.ts";
import { keepLimits } from "./keeping.ts";
import { figureHere, figuresHere, looked } from "./looked.ts";
import type { TrendPage } from "./places.ts";
import { reachedBack } from "./reaching.ts";
import { put } from "./trendPlace.ts";

/** The window moves as far as the test in hand needs it to. */
function following(app: App, cursor: number): Step {
  const place = here(app, "trend");
  const seen = looked(app);
  if (seen === null) return stay(app);
  const point = seen.chart.points[cursor];
  if (point === undefined)
    return stay(app, cursor < 0 ? say`no earlier test has been read` : say`this is the newest test`);
  const last = seen.rows.length - 1;
  let beyond = Math.min(place.beyond, last - cursor);
  while (windowOf(seen.rows, place.zoom, beyond, app.station).from > cursor) beyond += 1;
  return reachedBack(put(app, { cursor: point.testId, beyond }));
}

function moveBy(app: App, by: number): Step {
  const seen = looked(app);
  return seen === null ? stay(app) : following(app, seen.cursor + by);
}

function moveTo(app: App, end: "first" | "last"): Step {
  const seen = looked(app);
  if (seen === null) return stay(app);
  return following(app, end === "first" ? seen.stretch.from : seen.rows.length - 1);
}

/** Closer or wider about the test in hand, which stays in sight. */
function zoomTo(app: App, zoom: Zoom): Step {
  const next = put(app, { zoom }).app;
  const seen = looked(next);
  return seen === null || seen.rows.length === 0 ? put(app, { zoom }) : following(next, seen.cursor);
}

function turnFigure(app: App, by: number): Step {
  const figures = figuresHere(app);
  const at = figures.findIndex(({ on }) => on === figureHere(app)?.on);
  const next = figures[(at + by + figures.length) % Math.max(1, figures.length)];
  return next ? put(app, { on: next.on }) : stay(app);
}

function turnView(app: App): Step {
  const at = TREND_VIEWS.indexOf(here(app, "trend").view);
  return put(app, { view: TREND_VIEWS[(at + 1) % TREND_VIEWS.length] ?? "values" });
}

function open(app: App): Step {
  const seen = looked(app);
  const row = seen?.rows[seen.cursor];
  return row ? step(app, { do: "open", row }) : stay(app, say`there is no test to open`);
}

const toggled = (ids: readonly string[], id: string): readonly string[] =>
  ids.includes(id) ? ids.filter((one) => one !== id) : [...ids, id];

export const MOST_CURVES = 10;

function mark(app: App): Step {
  const seen = looked(app);
  const id = seen?.chart.points[seen.cursor]?.testId;
  if (id === undefined) return stay(app);
  const marked = toggled(here(app, "trend").marked, id);
  return marked.length > MOST_CURVES
    ? stay(app, say`${MOST_CURVES} tests at most lie over one another`)
    : put(app, { marked });
}

function leaveOut(app: App): Step {
  const { switches } = here(app, "trend");
  const seen = looked(app);
  const id = seen?.chart.points[seen.cursor]?.testId;
  if (id === undefined) return stay(app);
  return put(app, { switches: { ...switches, leftOut: toggled(switches.leftOut, id) } });
}

export const toPage = (app: App, page: Exclude<TrendPage, "chart">): Step => put(app, { page, at: 0, filter: "" });

export const CHART_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "open", help: "Open the test in hand.", does: open },
  { keys: ["left"], word: "test", help: "To the test before; the window follows.", does: (app) => moveBy(app, -1) },
  { keys: ["right"], word: "test", help: "To the test after.", does: (app) => moveBy(app, 1), quiet: true },
  { keys: ["f"], word: "figure", help: "Choose the figure from a list.", does: (app) => toPage(app, "figures") },
  {
    keys: ["+"],
    word: "closer",
    help: "Fewer tests, or less time, in the window.",
    does: (app) => zoomTo(app, zoomed(here(app, "trend").zoom, -1)),
    quiet: true,
  },
  {
    keys: ["-"],
    word: "wider",
    help: "More of them; older tests are read as they are needed.",
    does: (app) => zoomTo(app, zoomed(here(app, "trend").zoom, 1)),
    quiet: true,
  },
  {
    keys: ["z"],
    word: "span",
    help: "Look by tests, shifts, production days, weeks or months.",
    does: (app) => zoomTo(app, otherUnit(here(app, "trend").zoom)),
  },
  {
    keys: ["v"],
    word: "view",
    help: "Values, moving range, weighted average (EWMA), cumulative sums (CUSUM).",
    does: turnView,
  },
  {
    keys: ["o"],
    word: "curves",
    help: "The passing curves of the last tests, or of those marked, over one another.",
    does: (app) => toPage(app, "curves"),
  },
  {
    keys: ["m"],
    word: "limits",
    help: "All limits of the product, small: which one drifts?",
    does: (app) => toPage(app, "limits"),
  },
  { keys: ["r"], word: "rules", help: "Turn run rules and restarts on and off.", does: (app) => toPage(app, "rules") },
  {
    keys: ["c"],
    word: "in words",
    help: "All that is said of this trend: limits, capability and what to mind about it, drift, changes, tests left aside.",
    does: (app) => toPage(app, "words"),
  },
  { keys: ["p"], word: "product", help: "Another product or line.", does: (app) => toPage(app, "products") },
  {
    keys: ["k"],
    word: "keep",
    help: "Keep the control limits as they are now: freezes them, with a reason and who signs.",
    does: keepLimits,
    refusal: (app) => app.readOnly,
  },
  {
    keys: ["up", "["],
    word: "figure",
    help: "The figure before: limits first, then what the product shows, then others.",
    does: (app) => turnFigure(app, -1),
    quiet: true,
  },
  { keys: ["down", "]"], word: "figure", help: "The figure after.", does: (app) => turnFigure(app, 1), quiet: true },
  {
    keys: ["home"],
    word: "first",
    help: "To the first test in the window.",
    does: (app) => moveTo(app, "first"),
    quiet: true,
  },
  { keys: ["end"], word: "newest", help: "To the newest test.", does: (app) => moveTo(app, "last"), quiet: true },
  {
    keys: ["s", " "],
    word: "mark",
    help: "Mark the test in hand for the overlay of curves; again to unmark (Space too).",
    does: mark,
    quiet: true,
  },
  {
    keys: ["x"],
    word: "leave out",
    help: "Leave the test in hand out of limits, runs, capability and drift; again to take it in. It stays in sight.",
    does: leaveOut,
    quiet: true,
  },
  { keys: ["escape"], word: "back", help: "Back to where you came from.", does: (app) => step(leave(app)) },
];
