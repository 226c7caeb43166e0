import type { ModelFit } from "../grading/models/fit.ts";
import type { SizeModel } from "../grading/models/model.ts";
import { significant } from "../grading/rounding.ts";
import { figure } from "../words/figures.ts";
import { phrase, say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { apertureText, sizeText } from "./figures.ts";

const RULES = {
  "least-squares": phrase("least squares on passing %"),
  line: phrase("straight line on its own grid, 5 to 95 %"),
} as const;

const shown = (value: number, unit: "um" | "1"): string =>
  unit === "um" ? sizeText(value) : figure(significant(value, 3));

/**
 * What a fitted model says, in one sentence: its parameters with their standard errors, how well it fits, on which
 * points and by which rule; or why there is no fit.
 */
export function fitText(model: SizeModel, fit: ModelFit): string {
  if (!fit.determinable) return `${spoken(model.label)}: ${spoken(fit.reason)}`;
  const named: Readonly<Record<string, unknown>> = { ...fit };
  const errors: Readonly<Record<string, unknown>> = fit.standardErrors;
  const parameters = model.parameters.map(
    ({ key, label, unit }) =>
      `${spoken(label)} ${shown(Number(named[key]), unit)} ± ${shown(Number(errors[key]), unit)}`,
  );
  const range = say`${apertureText(fit.used.fromUm)} to ${apertureText(fit.used.toUm)}`;
  const quality = say`r2 ${figure(fit.r2.toFixed(4))}, rms ${figure(significant(fit.rmsPct, 2))} % points`;
  const rule = spoken(RULES[fit.rule]);
  return say`${spoken(model.label)}: ${parameters.join(", ")}; ${quality}; ${fit.pointsUsed} sieves, ${range}; ${rule}; ± is one standard error`;
}
