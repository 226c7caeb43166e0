import { isKnown } from "./known.ts";
import type { Axis, Tick } from "./plotArea.ts";
import { valueTicks } from "./valueAxis.ts";

/** A line across a control chart, with its height at each point; null where it isn't known. */
export interface ControlLine {
  readonly kind: "centre" | "control" | "product";
  /** "upper 781": stands at the axis where the line ends. */
  readonly label: string;
  readonly ys: readonly (number | null)[];
}

/** A limit of the product farther off than so many times the height of all else would flatten the chart, and is left off. */
const FAR = 1;
const MARGIN = 0.04;

function reachOf(ys: readonly number[]): { readonly low: number; readonly high: number } {
  return ys.length === 0 ? { low: 0, high: 0 } : { low: Math.min(...ys), high: Math.max(...ys) };
}

/**
 * The upright axis of a control chart: it reaches over all points and control limits, and over those limits of the product
 * that are not far off. Lines are named at it; where two would share a row the centre, then the control limits go first.
 */
export function controlAxis(values: readonly number[], lines: readonly ControlLine[], rows: number): Axis {
  const ofProcess = lines.filter(({ kind }) => kind !== "product").flatMap(({ ys }) => ys.filter(isKnown));
  const core = reachOf([...values, ...ofProcess]);
  const height = core.high - core.low || Math.abs(core.high) * 0.05 || 1;
  const near = lines
    .filter(({ kind }) => kind === "product")
    .flatMap(({ ys }) => ys.filter(isKnown))
    .filter((y) => y >= core.low - FAR * height && y <= core.high + FAR * height);
  const all = reachOf([core.low, core.high, ...near]);
  const margin = MARGIN * (all.high - all.low) || height / 2;
  const [from, to] = [all.low - margin, all.high + margin];
  const order = ["centre", "control", "product"] as const;
  const named = order
    .flatMap((kind) => lines.filter((line) => line.kind === kind))
    .flatMap(({ label, ys }): Tick[] => {
      const at = ys.findLast(isKnown);
      return at === undefined || at < from || at > to ? [] : [{ at, label }];
    });
  return { from, to, ticks: named.length > 0 ? named : valueTicks(from, to, rows) };
}
