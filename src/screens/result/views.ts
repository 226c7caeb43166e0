import { type Assessment, curveOf } from "../../assess.ts";
import { densityChart } from "../../chart/densityChart.ts";
import { retainedHistogram } from "../../chart/histogram.ts";
import { chartLegend, passingChart } from "../../chart/passingChart.ts";
import type { Product } from "../../record/product.ts";
import { envelopeOf } from "../../run/soFar.ts";
import { type Line, line } from "../line.ts";
import type { Size } from "../place.ts";

/** The pages of a result, in the order in which `v` turns through them. */
export const VIEWS = ["summary", "passing", "retained", "density"] as const;
export type View = (typeof VIEWS)[number];
export type Drawing = Exclude<View, "summary">;

function passingDrawing(assessment: Assessment, product: Product, size: Size): string[] {
  const points = assessment.fractions.filter((f) => f.apertureUm > 0);
  const d50 = assessment.percentilesUm["50"];
  return passingChart({
    points,
    envelope: envelopeOf(product),
    passingAt: curveOf(assessment),
    ...(d50?.determinable ? { mark: { sizeUm: d50.value, passingPct: 50 } } : {}),
    width: size.columns,
    height: size.rows,
  });
}

const CAPTION: Record<Drawing, string> = {
  passing: "passing % over aperture",
  retained: "retained % by sieve",
  density: "retained % per doubling of size",
};

/** One drawing of the result in the room given, its caption and legend included. */
export function drawView(view: Drawing, assessment: Assessment, product: Product, size: Size): Line[] {
  const room = { columns: size.columns - 2, rows: size.rows - 1 };
  const legend = view === "passing" ? chartLegend({ envelope: envelopeOf(product).length > 0 }) : "";
  const drawn =
    view === "passing"
      ? passingDrawing(assessment, product, room)
      : (view === "retained" ? retainedHistogram : densityChart)({
          fractions: assessment.fractions,
          width: room.columns,
          height: room.rows,
        });
  return [line(`  ${CAPTION[view]}   ${legend}`, "dim"), ...drawn.map((text) => line(`  ${text}`))];
}
