import type { DeckPerformance } from "../grading/deck/deckPerformance.ts";
import { partitionAt } from "../grading/deck/partitionAt.ts";
import type { Interpolation } from "../record/product.ts";
import { say } from "../words/say.ts";
import { glyphsFor } from "./glyphs.ts";
import { percentAxis } from "./percentAxis.ts";
import { createPlotArea } from "./plotArea.ts";
import { sizeAt, sizeAxis, sizeOf } from "./sizeAxis.ts";

export interface PartitionChart {
  readonly performance: Pick<DeckPerformance, "partition" | "cutSizeUm">;
  /** How the curve is read between the classes. */
  readonly interpolation: Interpolation;
  readonly width: number;
  readonly height: number;
  readonly ascii?: boolean;
}

/**
 * The partition curve of a deck over the logarithm of size: % of each class that goes over, a dot at the middle of each
 * class, the cut size marked down to the axis. The axis names the sieves. `height` rows of exactly `width` columns.
 */
export function partitionChart({ performance, interpolation, width, height, ascii }: PartitionChart): string[] {
  const { partition, cutSizeUm } = performance;
  const glyphs = glyphsFor(ascii);
  const middles = partition.map((each) => each.sizeUm);
  const x = sizeAxis(
    partition.map((each) => each.apertureUm),
    middles,
  );
  const y = percentAxis(height - 2);
  const area = createPlotArea({ x: x ?? { from: 0, to: 1, ticks: [] }, y, width, height, glyphs });
  if (!x) area.note(say`no partition curve`);
  const pctAt = partitionAt(partition, interpolation);
  area.curve((at) => pctAt(sizeOf(at)), glyphs.curve);
  for (const { sizeUm, toOversizePct } of partition) {
    if (toOversizePct.determinable) area.mark(sizeAt(sizeUm), toOversizePct.value, glyphs.measured);
  }
  if (cutSizeUm.determinable) {
    area.mark(sizeAt(cutSizeUm.value), 50, glyphs.mark);
    area.dropLine(sizeAt(cutSizeUm.value), 50);
  }
  return area.text();
}

/** What the signs of a partition chart stand for. */
export const partitionLegend = (ascii = false): string =>
  `${say`class`} ${glyphsFor(ascii).measured}   ${say`cut size`} ${glyphsFor(ascii).mark}`;
