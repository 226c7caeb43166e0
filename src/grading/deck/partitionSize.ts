import { type Determination, determined, undetermined } from "../../record/determination.ts";
import type { Interpolation } from "../../record/product.ts";
import type { Curve } from "../curve.ts";
import { READINGS } from "../interpolation/readings.ts";
import { pctWords, sizeWords } from "../words.ts";
import type { PartitionClass } from "./partition.ts";

/** d25, d50 and d75 of the partition curve. */
export interface PartitionSizes {
  readonly d25: Determination;
  readonly d50: Determination;
  readonly d75: Determination;
}

interface PartitionPoint {
  readonly sizeUm: number;
  readonly pct: number;
  readonly assumption: string | null;
}

/** The classes with a partition number as points of a curve, finest first. */
const pointsOf = (classes: readonly PartitionClass[]): readonly PartitionPoint[] =>
  classes
    .flatMap(({ sizeUm, assumption, toOversizePct }) =>
      toOversizePct.determinable ? [{ sizeUm, pct: toOversizePct.value, assumption }] : [],
    )
    .toReversed();

const curveThrough = (points: readonly PartitionPoint[]): Curve => ({
  apertureUm: points.map(({ sizeUm }) => sizeUm),
  lnAperture: points.map(({ sizeUm }) => Math.log(sizeUm)),
  passingPct: points.map(({ pct }) => pct),
});

/** The partition curve through the middles of the classes that have a partition number. */
export const partitionCurve = (classes: readonly PartitionClass[]): Curve => curveThrough(pointsOf(classes));

/** Indices k at which the curve passes q between points k and k + 1, upwards or downwards. */
function crossingsOf(points: readonly PartitionPoint[], wantedPct: number) {
  const over = points.map(({ pct }) => pct >= wantedPct);
  const turns = over.slice(1).map((now, k) => ({ k, up: now && !over[k], down: !now && over[k] }));
  return { ups: turns.filter(({ up }) => up), downs: turns.filter(({ down }) => down) };
}

function noCrossing(points: readonly PartitionPoint[], wantedPct: number): string {
  const [finest, coarsest] = [points[0], points.at(-1)];
  if (!finest || !coarsest) return "no class has a partition number";
  return finest.pct >= wantedPct
    ? `below ${sizeWords(finest.sizeUm)}: even of the finest class ${pctWords(finest.pct)} go over`
    : `above ${sizeWords(coarsest.sizeUm)}: even of the coarsest class only ${pctWords(coarsest.pct)} go over`;
}

const backwards = "finer classes go over more than coarser ones: were oversize and undersize exchanged?";

function readAt(points: readonly PartitionPoint[], k: number, wantedPct: number, interpolation: Interpolation) {
  const curve = curveThrough(points);
  const { sizeUm, told } = READINGS[interpolation];
  const fallsBack = told?.(curve, k) ? "read log-linearly: 0 and 100 % have no place on a probability scale" : null;
  const assumptions = [points[k]?.assumption, points[k + 1]?.assumption, fallsBack].filter((words) => words != null);
  return determined(sizeUm(curve, k, wantedPct), "um", assumptions);
}

/**
 * Size at which the partition curve reaches a wanted %: d25, d50 (the cut size) or d75 of a deck, in um. The curve runs
 * through the classes at their geometric middles and is read between them by the product's interpolation (CP-4).
 * @returns the size; or a reason: the curve does not reach that %, reaches it more than once, or falls with size
 * @source Wills, Mineral Processing Technology (memory)
 */
export function partitionSizeUm(
  classes: readonly PartitionClass[],
  wantedPct: number,
  interpolation: Interpolation,
): Determination {
  const points = pointsOf(classes);
  const { ups, downs } = crossingsOf(points, wantedPct);
  const [up] = ups;
  if (!up) return undetermined(downs.length > 0 ? backwards : noCrossing(points, wantedPct));
  const times = ups.length + downs.length;
  if (times > 1)
    return undetermined(`the partition curve passes ${wantedPct} % ${times} times, so that size is not one`);
  return readAt(points, up.k, wantedPct, interpolation);
}
