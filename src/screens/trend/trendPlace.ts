import type { Product } from "../../record/product.ts";
import { USUAL_SWITCHES } from "../../shift/trend.ts";
import { ANY_TIME, type TrendReach, type TrendRead } from "../../store/trendReading.ts";
import { say } from "../../words/say.ts";
import { type App, enter, type Place, type Step, stay, step } from "../place.ts";
import { here } from "../room.ts";
import type { TrendPlace } from "./places.ts";

/** What is read at first; a trend of a busy line begins with a month or two. */
export const FIRST_READ: TrendReach = { tests: 200, period: ANY_TIME };

const emptyTrend = (product: string, line: string | null): TrendPlace => ({
  name: "trend",
  product,
  line,
  on: null,
  read: null,
  reading: FIRST_READ,
  reached: null,
  zoom: { unit: "tests", many: 50 },
  cursor: null,
  beyond: 0,
  view: "values",
  switches: USUAL_SWITCHES,
  page: "chart",
  at: 0,
  filter: "",
  marked: [],
  curves: 6,
  keeping: null,
});

const reading = ({ product, line, reading: reach }: TrendPlace) =>
  ({ do: "readTrend", product, line, reach: reach ?? FIRST_READ }) as const;

/** Into the trend of a product on a line; without a line on the one that it was tested on last. */
export function trendOf(app: App, product: string, line: string | null, cursor: string | null = null): Step {
  const place = { ...emptyTrend(product, line), cursor };
  return step(enter(app, place), reading(place));
}

/** From the bench: the product tested last, on its line. */
export function trendOnBench(app: App): Step {
  const newest = app.recent?.find(({ product }) => app.products.some(({ code }) => code === product));
  const product = newest?.product ?? app.products[0]?.code;
  if (product === undefined) return stay(app, say`no product is in force: there is nothing to show a trend of`);
  return trendOf(app, product, newest?.line ?? null);
}

export const put = (app: App, change: Partial<TrendPlace>): Step =>
  step({ ...app, message: null, place: { ...here(app, "trend"), ...change } });

/** Another product or line in the same place; what was chosen of the figure goes, switches stay. */
export function trendTo(app: App, product: string, line: string | null): Step {
  const { switches, zoom, view } = here(app, "trend");
  const kept = { switches: { ...switches, leftOut: [] }, zoom, view };
  const place: TrendPlace = { ...emptyTrend(product, line), ...kept };
  return step({ ...app, message: null, place }, reading(place));
}

/** Reads farther back. */
export function readMore(app: App, reach: TrendReach): Step {
  const place: TrendPlace = { ...here(app, "trend"), reading: reach };
  return step({ ...app, place }, reading(place));
}

/** What was asked of the log and what came: the line that it is of, and its tests. */
export interface TrendAnswer {
  readonly asked: { readonly product: string; readonly line: string | null };
  readonly line: string;
  readonly read: TrendRead;
}

const takenBy =
  ({ asked, line, read }: TrendAnswer) =>
  (place: Place): Place => {
    const waits = place.name === "trend" && place.product === asked.product && place.line === asked.line;
    return waits ? { ...place, line, read, reading: null, reached: place.reading } : place;
  };

/** The tests have been read; they arrive even while the operator is elsewhere. */
export function trendArrived(app: App, answer: TrendAnswer): App {
  const taken = takenBy(answer);
  const place = taken(app.place);
  const behind = app.behind.map(taken);
  return { ...app, place, behind };
}

/** The product's revision in force, else the newest one there is. */
export const productHere = (app: App, code: string): Product | undefined =>
  app.products.find((product) => product.code === code) ?? app.revisions.findLast((product) => product.code === code);
