import { windowBegins } from "../../shift/trendWindow.ts";
import { ANY_TIME, type TrendReach } from "../../store/trendReading.ts";
import { type App, type Step, step } from "../place.ts";
import { here } from "../room.ts";
import { looked } from "./looked.ts";
import { readMore, type TrendAnswer, trendArrived } from "./trendPlace.ts";

/** As many more as a first reading has. */
const MORE_TESTS = 200;

/** How far back the window reaches, where that is beyond what has been read. */
function wanted(app: App): TrendReach | null {
  const place = here(app, "trend");
  const seen = looked(app);
  if (seen === null || !place.read?.older || seen.stretch.from > 0) return null;
  const newest = seen.rows[seen.stretch.to];
  const day = newest ? windowBegins(newest, place.zoom, app.station) : null;
  if (day === null) {
    const tests = Math.max(place.zoom.many + place.beyond, seen.cursor === 0 ? seen.rows.length + MORE_TESTS : 0);
    return tests > seen.rows.length ? { tests, period: ANY_TIME } : null;
  }
  const oldest = place.read.rows[0]?.day ?? "9999";
  return day < oldest ? { tests: null, period: { since: { day }, until: null } } : null;
}

/** What was asked for last brought all that it could; only what goes farther is worth asking. */
function isFarther(reach: TrendReach, reached: TrendReach | null): boolean {
  if (reached !== null && reach.tests !== null && reached.tests !== null) return reach.tests > reached.tests;
  return JSON.stringify(reach) !== JSON.stringify(reached);
}

/** Reads farther back where the window reaches beyond what has been read. */
export function reachedBack(at: Step): Step {
  const place = here(at.app, "trend");
  const reach = place.reading === null ? wanted(at.app) : null;
  return reach === null || !isFarther(reach, place.reached) ? at : readMore(at.app, reach);
}

/** The tests have been read; if the window was made wider meanwhile, more are asked for. */
export function trendTaken(app: App, answer: TrendAnswer): Step {
  const next = trendArrived(app, answer);
  return next.place.name === "trend" ? reachedBack(step(next)) : step(next);
}
