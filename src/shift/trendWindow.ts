import { Temporal } from "temporal-polyfill";
import type { IndexRow } from "../record/indexRow.ts";
import { type Schedule, shiftAt, shiftBefore } from "./schedule.ts";

export const ZOOM_UNITS = ["tests", "shifts", "days", "weeks", "months"] as const;
export type ZoomUnit = (typeof ZOOM_UNITS)[number];

/** How much of a trend is looked at: so many tests, or so many shifts, production days, weeks or months back. */
export interface Zoom {
  readonly unit: ZoomUnit;
  readonly many: number;
}

/** Steps of zooming: in tests, and in spans of time. */
export const TEST_STEPS = [10, 20, 50, 100, 200, 400, 800] as const;
export const TIME_STEPS = [1, 2, 3, 4, 6, 9, 12, 18, 24] as const;

const stepsOf = ({ unit }: Zoom): readonly number[] => (unit === "tests" ? TEST_STEPS : TIME_STEPS);

/** One step closer (-1) or wider (1); the same at either end. */
export function zoomed(zoom: Zoom, by: 1 | -1): Zoom {
  const steps = stepsOf(zoom);
  const next = by > 0 ? steps.find((many) => many > zoom.many) : steps.findLast((many) => many < zoom.many);
  return { ...zoom, many: next ?? zoom.many };
}

const USUAL: Readonly<Record<ZoomUnit, number>> = { tests: 50, shifts: 3, days: 3, weeks: 2, months: 1 };

/** By the next unit, as much of it as is usual. */
export function otherUnit({ unit }: Zoom): Zoom {
  const next = ZOOM_UNITS[(ZOOM_UNITS.indexOf(unit) + 1) % ZOOM_UNITS.length] ?? "tests";
  return { unit: next, many: USUAL[next] };
}

type Moment = Pick<IndexRow, "at" | "day">;

/** The first production day of so many days, weeks or calendar months that end with a day. */
function firstDay(day: string, unit: "days" | "weeks" | "months", many: number): string {
  const last = Temporal.PlainDate.from(day);
  if (unit === "months")
    return last
      .with({ day: 1 })
      .subtract({ months: many - 1 })
      .toString();
  return last.subtract({ days: (unit === "weeks" ? 7 : 1) * many - 1 }).toString();
}

/** When the first of so many shifts began that end with the one of a moment. */
function firstShift(at: string, many: number, schedule: Schedule) {
  let shift = shiftAt(at, schedule);
  for (let k = 1; k < many; k += 1) shift = shiftBefore(shift, schedule);
  return shift;
}

/** The production day that a window in time begins with; null for a window of so many tests. */
export function windowBegins(newest: Moment, { unit, many }: Zoom, schedule: Schedule): string | null {
  if (unit === "tests") return null;
  return unit === "shifts" ? firstShift(newest.at, many, schedule).day : firstDay(newest.day, unit, many);
}

/**
 * The tests that are looked at: places of the first and the last. Spans of time end with the shift, production day or month
 * of the last test.
 *
 * @param tests oldest first
 * @param beyond how many of the newest lie beyond the right edge
 */
export function windowOf(tests: readonly Moment[], zoom: Zoom, beyond: number, schedule: Schedule) {
  const to = Math.max(0, tests.length - 1 - beyond);
  const newest = tests[to];
  if (newest === undefined) return { from: 0, to: -1 };
  if (zoom.unit === "tests") return { from: Math.max(0, to - zoom.many + 1), to };
  const begun = zoom.unit === "shifts" ? Date.parse(firstShift(newest.at, zoom.many, schedule).began) : null;
  const day = windowBegins(newest, zoom, schedule) ?? "";
  const from = tests.findIndex((one) => (begun === null ? one.day >= day : Date.parse(one.at) >= begun));
  return { from: Math.min(from < 0 ? to : from, to), to };
}
