import { NELSON_RULES, type RunRuleId, WESTERN_ELECTRIC_RULES } from "../control/rules/rules.ts";
import { dayInForce } from "../record/dayInForce.ts";
import { isCounted } from "../record/indexRow.ts";
import { type Period, periodOf } from "../record/period.ts";
import type { Product } from "../record/product.ts";
import { trendJson } from "../report/trendJson.ts";
import { trendPage } from "../report/trendPage.ts";
import { marksOf, trendChartOf, USUAL_SWITCHES } from "../shift/trend.ts";
import { type Figure, figureNamed, figuresOf, firstFigure } from "../shift/trendFigure.ts";
import type { Store } from "../store/store.ts";
import { linesOf, readTrend, type TrendRead } from "../store/trendReading.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { type Ending, EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { openForReading } from "./openForReading.ts";
import { stationNow } from "./stationClock.ts";
import { textLook, textPage } from "./textPage.ts";

export interface TrendOptions {
  readonly value?: string;
  readonly line?: string;
  readonly since?: string;
  readonly until?: string;
  readonly last?: string;
  readonly rules?: string;
  readonly json?: boolean;
  readonly data?: string;
}

const USUAL_TESTS = 200;
const MOST_TESTS = 100_000;

const RULE_SETS: Readonly<Record<string, readonly RunRuleId[]>> = {
  "western-electric": WESTERN_ELECTRIC_RULES,
  nelson: NELSON_RULES,
};

interface Wanted {
  readonly period: Period;
  readonly tests: number | null;
  readonly rules: readonly RunRuleId[];
}

/** The options that can be judged without the station. */
function wantedBy({ since, until, last, rules = "western-electric" }: TrendOptions): Step<Wanted> {
  const period = periodOf(since, until);
  if (!period.ok) return ended(EXIT.usage, `--${period.reason}`);
  const set = Object.hasOwn(RULE_SETS, rules) ? RULE_SETS[rules] : undefined;
  if (set === undefined) return ended(EXIT.usage, `--rules ${rules}: give western-electric or nelson`);
  const tests = last === undefined ? (since === undefined ? USUAL_TESTS : null) : Number(last);
  const isWhole = tests === null || (/^\d+$/.test(last ?? "1") && tests >= 1 && tests <= MOST_TESTS);
  if (!isWhole) return ended(EXIT.usage, `--last ${last}: give a whole number from 1 to ${MOST_TESTS}`);
  return reached({ period: period.value, tests, rules: set });
}

async function productIn(store: Store, code: string, now: string): Promise<Step<Product>> {
  const shelf = await store.products();
  const day = dayInForce(now, store.station.dayBegins);
  const product = shelf.inForce(code, day) ?? shelf.revisions(code).at(-1);
  if (product !== undefined) return reached(product);
  const known = shelf.codes.length === 0 ? "none is loaded" : `known are ${shelf.codes.join(", ")}`;
  return ended(EXIT.notFound, `product ${code} is not in the library of ${store.folder}: ${known}`);
}

function figureAsked(product: Product, asked: string | undefined): Step<Figure> {
  if (asked !== undefined) {
    const named = figureNamed(product, asked);
    return named.ok ? reached(named.value) : ended(EXIT.usage, `--value ${named.reason}`);
  }
  const first = firstFigure(figuresOf(product));
  return first ? reached(first) : ended(EXIT.usage, "--value: name what to chart, such as d50");
}

async function lineAsked(store: Store, product: string, asked: string | undefined): Promise<Step<[string, string[]]>> {
  const tested = await linesOf(store, product);
  const lines = [...new Set([...tested, ...store.station.lines])];
  if (asked !== undefined) {
    const line = lines.find((one) => one.toLowerCase() === asked.toLowerCase());
    return line !== undefined
      ? reached([line, []])
      : ended(EXIT.usage, `--line ${asked}: this station has ${lines.join(", ")}`);
  }
  const others = tested.slice(1);
  const note = others.length === 0 ? [] : [`tested lately on ${others.join(", ")}, too: --line chooses`];
  return reached([tested[0] ?? store.station.lines[0] ?? "", note]);
}

/** The newest tests that count, as many as were asked for, and those in between that don't. */
function newestOf(read: TrendRead, tests: number | null): TrendRead {
  const counted = read.rows.filter(isCounted);
  const first = tests === null ? undefined : counted.at(-tests);
  return first === undefined ? read : { ...read, rows: read.rows.slice(read.rows.indexOf(first)) };
}

async function answered(store: Store, code: string, options: TrendOptions, wanted: Wanted, io: Io): Promise<Ending> {
  const product = await productIn(store, code, stationNow(store.station, io));
  if (!product.ok) return product.ending;
  const figure = figureAsked(product.value, options.value);
  if (!figure.ok) return figure.ending;
  const where = await lineAsked(store, product.value.code, options.line);
  if (!where.ok) return where.ending;
  const [line, notes] = where.value;
  const read = newestOf(await readTrend(store, product.value.code, line, wanted), wanted.tests);
  const switches = { ...USUAL_SWITCHES, rules: wanted.rules };
  const chart = trendChartOf(read, figure.value, line, switches);
  const asked = { product: product.value, line, figure: figure.value, marks: marksOf(read.events, line), notes };
  const look = textLook(io);
  const out = options.json
    ? `${printedJson(trendJson(chart, asked))}\n`
    : textPage(trendPage(chart, asked, read.frozen, look), look);
  const { problems } = store;
  return { code: EXIT.ok, out, remark: () => (problems.length > 0 ? problems.join("; ") : null) };
}

/** `sievewright trend`: the control chart of one value, from the index; changes nothing. */
export async function trend(code: string, options: TrendOptions, io: Io): Promise<Ending> {
  const wanted = wantedBy(options);
  if (!wanted.ok) return wanted.ending;
  const opened = await openForReading(options.data, io);
  if (!opened.ok) return opened.ending;
  try {
    return await answered(opened.value, code, options, wanted.value, io);
  } finally {
    await opened.value.close();
  }
}
