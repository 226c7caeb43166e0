import { sparkline } from "../../chart/sparkline.ts";
import { remembered } from "../../grading/remembered.ts";
import { seriesText } from "../../report/chartWords.ts";
import { figureText, forecastWords, limitText } from "../../report/trendWords.ts";
import { type SmallTrend, smallTrends } from "../../shift/trendSmall.ts";
import { columnsOf } from "../../terminal/sanitise.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { apart, cells, type Line, line, unsaid } from "../line.ts";
import { moved } from "../list.ts";
import type { App, Size, Step } from "../place.ts";
import { stay } from "../place.ts";
import { type Binding, here } from "../room.ts";
import { listed } from "../sentences.ts";
import type { TrendPlace } from "./places.ts";
import { productHere, put } from "./trendPlace.ts";

const known = remembered((_read: NonNullable<TrendPlace["read"]>) => new Map<string, readonly SmallTrend[]>());

/** All limits of the product, worked out once for the same tests and switches. */
function smallHere(app: App): readonly SmallTrend[] {
  const { read, product: code, line: onLine, switches } = here(app, "trend");
  const product = productHere(app, code);
  if (read === null || product === undefined) return [];
  const key = JSON.stringify([code, product.revision, switches]);
  const found = known(read).get(key) ?? smallTrends(product, read, onLine ?? "", switches);
  known(read).set(key, found);
  return found;
}

/** "↑ rises, 790 um in ~12", tests */
function wayWords({ forecast: { trend, reach }, figure }: SmallTrend): string {
  if (!trend.determinable) return say`– no drift`;
  const way = trend.direction === "rising" ? say`↑ rises` : say`↓ falls`;
  if (!reach.determinable) return way;
  const about = Math.max(1, Math.round(reach.tests));
  return say`${way}, ${limitText(reach.limit, figure.unit)} in ~${about}`;
}

const AGAINST = { within: "✓", above: "✗", below: "✗" } as const;

const LABEL_COLUMNS = { least: 23, most: 27 } as const;

/** As wide as the longest name, within bounds. */
const labelColumns = (all: readonly SmallTrend[]): number =>
  Math.min(
    LABEL_COLUMNS.most,
    Math.max(LABEL_COLUMNS.least, ...all.map(({ figure }) => columnsOf(spoken(figure.label)) + 1)),
  );

function rowOf(small: SmallTrend, chosen: boolean, columns: number, labels: number): Line {
  const { figure, newest, against, signal } = small;
  const room = Math.max(12, Math.min(60, columns - labels - 42));
  const latest = newest === null ? "–" : figureText(newest, figure.unit);
  const drawn = cells([
    { text: chosen ? "▸" : "", columns: 2, role: "strong" },
    apart(spoken(figure.label), labels, chosen ? "strong" : "plain"),
    { text: sparkline(small.values, room), columns: room + 1, align: "left" },
    { text: latest, columns: 8, align: "right" },
    { text: against === null ? "" : ` ${AGAINST[against]}`, columns: 3, role: against === "within" ? "pass" : "fail" },
    { text: signal ? "◆" : "", columns: 2, role: "warning" },
    { text: wayWords(small), columns: 25, role: small.forecast.reach.determinable ? "warning" : "plain" },
  ]);
  const judged = against === null ? latest : `${latest} ${AGAINST[against]}`;
  const signals = signal ? say`the newest test signals` : "";
  return listed(drawn, chosen, spoken(figure.label), [judged, seriesText(small.values, figure.unit), signals]);
}

function detail(small: SmallTrend | undefined): string {
  return small === undefined ? "" : `${spoken(small.figure.label)}: ${forecastWords(small.figure, small.forecast)}`;
}

/** Every limit of the product as a row of bars: which sieve drifts? */
export function limitsBody(app: App, size: Size): readonly Line[] {
  const { read, at } = here(app, "trend");
  if (read === null) return [[], line(say`  reading the log ...`, "dim")];
  const all = smallHere(app);
  if (all.length === 0) return [[], line(say`  this product has no limits`, "dim")];
  const rows = all.map((small, i) => rowOf(small, i === at, size.columns, labelColumns(all)));
  const head = unsaid(
    line(say`  newest at the right, each in its own range; ~ in tests; ◆ newest test signals`, "dim"),
  );
  const room = size.rows - 4;
  const from = Math.max(0, Math.min(at - room + 1, rows.length - room));
  return [head, [], ...rows.slice(from, from + room), [], line(`  ${detail(all[at])}`)];
}

const move = (app: App, by: number): Step => put(app, moved(here(app, "trend"), by, smallHere(app).length));

function choose(app: App): Step {
  const small = smallHere(app)[here(app, "trend").at];
  return small ? put(app, { page: "chart", on: small.figure.on, at: 0 }) : stay(app);
}

export const LIMITS_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "chart", help: "The control chart of this limit.", does: choose },
  { keys: ["up"], word: "row", help: "The mark one row up.", does: (app) => move(app, -1) },
  { keys: ["down"], word: "row", help: "The mark one row down.", does: (app) => move(app, 1), quiet: true },
  {
    keys: ["escape", "m"],
    word: "back",
    help: "Back to the chart.",
    does: (app) => put(app, { page: "chart", at: 0 }),
  },
];
