import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Determination } from "../record/determination.ts";
import type { ChartKind } from "./chartKind.ts";
import { LARGEST_SAMPLE } from "./constants/chartConstants.ts";
import { meanOf } from "./summary.ts";

/** One test on its way to a chart. */
export interface ChartPoint {
  /** When, as a moment with its offset. */
  readonly at: string;
  readonly testId: string;
  /** What the test found; a reason if it found nothing. Not read by charts of replicates. */
  readonly value: number | null | Determination;
  /** The same value of each portion, for charts of replicates. */
  readonly replicates?: readonly number[];
}

/** A test with something to plot. */
export interface Plotted {
  readonly at: string;
  readonly testId: string;
  readonly value: number;
  /** The portions' values; the value alone where the chart is of individuals. */
  readonly portions: readonly number[];
}

/** A test that the chart can't show, and why. */
export interface SetAside {
  readonly at: string;
  readonly testId: string;
  readonly reason: string;
}

export interface PlottedPoints {
  /** In the order of their moments; of equal moments in the order given. */
  readonly plotted: readonly Plotted[];
  readonly setAside: readonly SetAside[];
  /** Portions a test, 1 on a chart of individuals. */
  readonly replicates: number;
}

type Portions = Outcome<readonly number[]>;

function individual({ value }: ChartPoint): Portions {
  if (value === null) return refused("no value was found");
  if (typeof value === "number") return accepted([value]);
  return value.determinable ? accepted([value.value]) : refused(value.reason);
}

function replicated({ replicates = [] }: ChartPoint): Portions {
  if (replicates.length < 2) return refused("a chart of replicates needs two portions or more");
  if (replicates.length > LARGEST_SAMPLE) return refused(`more than ${LARGEST_SAMPLE} portions`);
  return accepted(replicates);
}

function portionsOf(point: ChartPoint, kind: ChartKind): Portions {
  if (Number.isNaN(Date.parse(point.at))) return refused("its time can't be read");
  const found = kind === "individuals" ? individual(point) : replicated(point);
  return found.ok && !found.value.every(Number.isFinite) ? refused("its value is not a number") : found;
}

/** The number that is there most often; of equally frequent ones the larger; 1 where there is none. */
function usual(counts: readonly number[]): number {
  const frequency = new Map<number, number>();
  for (const count of counts) frequency.set(count, (frequency.get(count) ?? 0) + 1);
  const ranked = [...frequency].toSorted(([a, often], [b, oftener]) => oftener - often || b - a);
  return ranked[0]?.[0] ?? 1;
}

/**
 * Parts the tests that a chart can show from those that it can't, each of which is told why. A chart of replicates
 * takes the number of portions that most tests have; a test with another number is set aside.
 */
export function plottedPoints(points: readonly ChartPoint[], kind: ChartKind): PlottedPoints {
  const found = points.map((point) => ({ point, portions: portionsOf(point, kind) }));
  const replicates = usual(found.flatMap(({ portions }) => (portions.ok ? [portions.value.length] : [])));
  const plotted: Plotted[] = [];
  const setAside: SetAside[] = [];
  for (const { point, portions } of found) {
    const { at, testId } = point;
    if (!portions.ok) setAside.push({ at, testId, reason: portions.reason });
    else if (portions.value.length !== replicates)
      setAside.push({ at, testId, reason: `${portions.value.length} portions where the chart has ${replicates}` });
    else plotted.push({ at, testId, value: meanOf(portions.value), portions: portions.value });
  }
  return { plotted: plotted.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at)), setAside, replicates };
}
