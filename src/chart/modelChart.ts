import type { GradedFraction } from "../grading/grading.ts";
import type { ModelFit } from "../grading/models/fit.ts";
import type { SizeModel } from "../grading/models/model.ts";
import { figure } from "../words/figures.ts";
import { gridChart } from "./gridChart.ts";
import { sizeTick } from "./sizeAxis.ts";

export interface ModelChart {
  /** Coarsest sieve first; the pan (aperture 0) has no place on the grid. */
  readonly fractions: readonly Pick<GradedFraction, "apertureUm" | "passingPct">[];
  readonly model: SizeModel;
  readonly fit: ModelFit;
  readonly width: number;
  readonly height: number;
  readonly ascii?: boolean;
}

/** The percentages that are worth a mark: those of the model's grid that lie about the points, the middle ones first. */
function percentTicks(model: SizeModel, passing: readonly number[]) {
  const least = Math.min(...passing);
  const greatest = Math.max(...passing);
  const within = model.ticksPct.filter(
    (pct) => pct >= least / 3 && pct <= Math.max(greatest, 100 - (100 - greatest) / 3),
  );
  const [first = 50, last = 50] = [within[0], within.at(-1)];
  const outermost = [...new Set([first, last])];
  const inner = within
    .filter((pct) => !outermost.includes(pct))
    .toSorted((a, b) => Math.abs(a - 50) - Math.abs(b - 50));
  return [...outermost, ...inner].flatMap((pct) => {
    const at = model.gridY(pct);
    return at === null ? [] : [{ at, label: figure(`${pct}`) }];
  });
}

/**
 * A grading on the grid on which a model is a straight line: measured points as dots, the fitted line, apertures along
 * and percent passing up, each at its transformed place. `height` rows of exactly `width` columns. Sieves that all or
 * nothing passes have no place on such a grid and are left out.
 */
export function modelChart({ fractions, model, fit, width, height, ascii = false }: ModelChart): string[] {
  const sieves = fractions.filter((f) => f.apertureUm > 0);
  const placed = sieves.flatMap(({ apertureUm, passingPct }) => {
    const y = model.gridY(passingPct);
    return y === null ? [] : [{ x: model.gridX(apertureUm), y, passingPct }];
  });
  const xTicks = sieves
    .toSorted((a, b) => a.apertureUm - b.apertureUm)
    .map(({ apertureUm }) => sizeTick(apertureUm, model.gridX(apertureUm)));
  const yTicks =
    placed.length > 0
      ? percentTicks(
          model,
          placed.map((p) => p.passingPct),
        )
      : [];
  const line = fit.determinable ? (u: number) => fit.gridLine.slope * (u - fit.gridLine.lnSizeUm) : undefined;
  return gridChart({ points: placed, ...(line ? { line } : {}), xTicks, yTicks, width, height, ascii });
}
