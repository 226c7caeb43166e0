import { curveOf } from "../../assess/assessTest.ts";
import type { Assessment } from "../../assess.ts";
import { densityChart, densitySteps } from "../../chart/densityChart.ts";
import { retainedHistogram } from "../../chart/histogram.ts";
import { modelChart } from "../../chart/modelChart.ts";
import { chartLegend, passingChart } from "../../chart/passingChart.ts";
import { bestModel } from "../../grading/models/bestModel.ts";
import { MODEL_IDS, type ModelId } from "../../grading/models/model.ts";
import { MODELS } from "../../grading/models/table.ts";
import { asDrawn } from "../../grading/standsAt.ts";
import type { Product } from "../../record/product.ts";
import { barsText, curveText } from "../../report/chartWords.ts";
import { wrapped } from "../../report/columns.ts";
import { apertureText } from "../../report/figures.ts";
import { fitText } from "../../report/fitText.ts";
import { bandOf } from "../../report/sureFigures.ts";
import { envelopeOf } from "../../run/soFar.ts";
import { columnsOf } from "../../terminal/sanitise.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, pictured, unsaid } from "../line.ts";
import type { Size } from "../place.ts";

/** The pages of a result, in the order in which `v` turns through them. */
export const VIEWS = [
  "summary",
  "checks",
  "chances",
  "sureness",
  "passing",
  "retained",
  "density",
  ...MODEL_IDS,
] as const;
export type View = (typeof VIEWS)[number];
export type Drawing = Exclude<View, "summary" | "checks" | "chances" | "sureness">;

function passingDrawing(assessment: Assessment, product: Product, size: Size): string[] {
  const points = asDrawn(assessment.fractions).filter((f) => f.apertureUm > 0);
  const d50 = assessment.percentilesUm["50"];
  return passingChart({
    points,
    envelope: envelopeOf(product),
    band: bandOf(assessment.howSure),
    passingAt: curveOf(assessment),
    ...(d50?.determinable ? { mark: { sizeUm: d50.value, passingPct: 50 } } : {}),
    width: size.columns,
    height: size.rows,
  });
}

const isModel = (view: Drawing): view is ModelId => (MODEL_IDS as readonly string[]).includes(view);

/** A model's grid: points, fitted line, and what the fit says. */
function modelDrawing(id: ModelId, assessment: Assessment, size: Size): Line[] {
  const fit = assessment.models[id];
  const told = wrapped(fitText(MODELS[id], fit), size.columns - 4, "  ");
  const best = spoken(bestModel(assessment.models).reason);
  const rows = size.rows - told.length - 1;
  const drawn = modelChart({
    fractions: asDrawn(assessment.fractions),
    model: MODELS[id],
    fit,
    width: size.columns - 2,
    height: rows,
  });
  return [
    ...told.map((text) => line(`  ${text}`, "dim")),
    ...drawn.map((text) => unsaid(line(`  ${text}`))),
    line(`  ${best}`, "dim"),
  ];
}

const CAPTION = {
  passing: phrase("passing % over aperture"),
  retained: phrase("retained % by sieve"),
  density: phrase("retained % per doubling of size"),
} as const;

const namedSize = (apertureUm: number): string => (apertureUm === 0 ? say`pan` : apertureText(apertureUm));

/** A drawing in words. */
function drawingText(view: Exclude<Drawing, ModelId>, { fractions }: Assessment): string {
  if (view === "passing") return curveText(fractions);
  if (view === "retained")
    return barsText(
      spoken(CAPTION.retained),
      fractions.map(({ apertureUm, retainedPct }) => [namedSize(apertureUm), retainedPct]),
    );
  return barsText(
    spoken(CAPTION.density),
    densitySteps(asDrawn(fractions)).map(({ fromUm, toUm, pctPerDoubling }) => [
      say`${apertureText(fromUm)} to ${apertureText(toUm)}`,
      pctPerDoubling,
    ]),
  );
}

/** One drawing of the result in the room given, its caption and legend included. */
export function drawView(view: Drawing, assessment: Assessment, product: Product, size: Size): Line[] {
  if (isModel(view)) return modelDrawing(view, assessment, size);
  const room = { width: size.columns - 2, height: size.rows - 1 };
  const legend = view === "passing" ? chartLegend({ envelope: envelopeOf(product).length > 0, band: true }) : "";
  const { fractions } = assessment;
  const drawn =
    view === "passing"
      ? passingDrawing(assessment, product, { columns: room.width, rows: room.height })
      : view === "retained"
        ? retainedHistogram({ fractions, ...room })
        : densityChart({ fractions: asDrawn(fractions), ...room });
  const whole = spoken(CAPTION[view]);
  const caption = columnsOf(`  ${whole}   ${legend}`) > size.columns ? say`passing %` : whole;
  const rows = drawn.map((text) => line(`  ${text}`));
  const picture = view === "density" ? rows.slice(0, -1) : rows; // what lies beyond the sieves stands below it in words
  return [
    unsaid(line(`  ${caption}   ${legend}`, "dim")),
    ...pictured(picture, () => drawingText(view, assessment)),
    ...rows.slice(picture.length),
  ];
}
