import type { ModelFit } from "../grading/models/fit.ts";
import type { SizeModel } from "../grading/models/model.ts";
import { significant } from "../grading/rounding.ts";
import { apertureText } from "../series/apertureText.ts";
import { sizeText } from "./figures.ts";

const RULES = {
  "least-squares": "least squares on passing %",
  line: "straight line on its own grid, 5 to 95 %",
} as const;

const figure = (value: number, unit: "um" | "1"): string => (unit === "um" ? sizeText(value) : significant(value, 3));

/**
 * What a fitted model says, in one sentence: its parameters with their standard errors, how well it fits, on which
 * points and by which rule; or why there is no fit.
 */
export function fitText(model: SizeModel, fit: ModelFit): string {
  if (!fit.determinable) return `${model.label}: ${fit.reason}`;
  const named: Readonly<Record<string, unknown>> = { ...fit };
  const errors: Readonly<Record<string, unknown>> = fit.standardErrors;
  const parameters = model.parameters.map(
    ({ key, label, unit }) => `${label} ${figure(Number(named[key]), unit)} ± ${figure(Number(errors[key]), unit)}`,
  );
  const range = `${apertureText(fit.used.fromUm)} to ${apertureText(fit.used.toUm)}`;
  const quality = `r2 ${fit.r2.toFixed(4)}, rms ${significant(fit.rmsPct, 2)} % points`;
  return `${model.label}: ${parameters.join(", ")}; ${quality}; ${fit.pointsUsed} sieves, ${range}; ${RULES[fit.rule]}; ± is one standard error`;
}
