import type { GradedFraction } from "../grading/grading.ts";
import { roundHalfAway } from "../grading/rounding.ts";
import { apertureText } from "../series/apertureText.ts";
import { figure } from "../words/figures.ts";
import { say } from "../words/say.ts";
import { createCanvas } from "./canvas.ts";
import { glyphsFor } from "./glyphs.ts";

export interface FractionChart {
  /** Coarsest sieve first, the pan (aperture 0) last. */
  readonly fractions: readonly Pick<GradedFraction, "apertureUm" | "retainedPct">[];
  readonly width: number;
  readonly height: number;
  readonly ascii?: boolean;
}

interface Bar {
  readonly label: string;
  readonly pct: number;
}

const named = (apertureUm: number): string => (apertureUm === 0 ? say`pan` : figure(apertureText(apertureUm)));

/** One bar for each fraction, or for as many neighbours together as it takes to fit in `rows`. */
function barsOf(fractions: FractionChart["fractions"], rows: number): Bar[] {
  const together = Math.max(1, Math.ceil(fractions.length / Math.max(1, rows)));
  return Array.from({ length: Math.ceil(fractions.length / together) }, (_, i) => {
    const group = fractions.slice(i * together, (i + 1) * together);
    const [first = "", last] = [group[0], group.length > 1 ? group.at(-1) : undefined].flatMap((f) =>
      f === undefined ? [] : [named(f.apertureUm)],
    );
    return {
      label: last === undefined ? first : say`${first} to ${last}`,
      pct: group.reduce((sum, f) => sum + f.retainedPct, 0),
    };
  });
}

function barText(cells: number, lengthening: string): string {
  const eighths = cells > 0 ? Math.max(1, Math.round(cells * 8)) : 0;
  const full = lengthening.at(-1) ?? "";
  return full.repeat(Math.floor(eighths / 8)) + (eighths % 8 > 0 ? (lengthening[eighths % 8] ?? "") : "");
}

/**
 * Retained % of each fraction as a bar across, coarsest on top as the stack stands, with its number: `height` rows of
 * exactly `width` columns. Where there are more fractions than rows, neighbours are summed into one bar.
 */
export function retainedHistogram({ fractions, width, height, ascii }: FractionChart): string[] {
  const canvas = createCanvas(width, height);
  const bars = barsOf(fractions, canvas.height);
  const numbers = bars.map(({ pct }) => ` ${figure(roundHalfAway(pct, 1))} %`);
  const left = Math.max(0, ...bars.map(({ label }) => label.length)) + 1;
  const room = Math.max(0, canvas.width - left - Math.max(0, ...numbers.map((text) => text.length)));
  const greatest = Math.max(0, ...bars.map(({ pct }) => pct));
  for (const [row, { label, pct }] of bars.entries()) {
    const bar = barText(greatest > 0 ? (pct / greatest) * room : 0, glyphsFor(ascii).lengthening);
    canvas.put(0, row, label.padStart(left - 1));
    canvas.put(left, row, bar + (numbers[row] ?? ""));
  }
  return canvas.rows();
}
