import { chargeOutside, type ProductPlan } from "../assess/productPlan.ts";
import { roundHalfAway, significant } from "../grading/rounding.ts";
import { boundsBeside, unitBeside } from "../series/sizesTogether.ts";
import { figureNamed } from "../shift/trendFigure.ts";
import { SIGNS } from "../terminal/signs.ts";
import type { PlanLine } from "../uncertainty/planning/planLine.ts";
import { figure } from "../words/figures.ts";
import { say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { NO_FIGURE, valueText } from "./figures.ts";

const FROM_KG = 10_000;

/** A charge to three digits, without idle zeros; in kg from 10 kg on. */
export const chargeText = (chargeG: number): string =>
  figure(chargeG < FROM_KG ? `${Number(significant(chargeG, 3))} g` : `${Number(significant(chargeG / 1000, 3))} kg`);

export const portionsText = (portions: number): string => (portions === 1 ? say`1 portion` : say`${portions} portions`);

/** What a limit is put on: "passing 500 um", "d50". */
export function limitLabel({ product }: Pick<ProductPlan, "product">, name: string): string {
  const named = figureNamed(product, name);
  return named.ok ? spoken(named.value.label) : name;
}

const unitText = (unit: string): string => (unit === "1" ? "" : ` ${unit}`);
const unitOf = (line: PlanLine): string => (line.planned ? line.unit : line.name.includes("Pct@") ? "%" : "1");

function boundsOf(line: PlanLine) {
  const { min, max, word } = boundsBeside(line, unitOf(line), line.planned ? line.typical : null);
  const shown = (bound: number | null) => (bound === null ? null : figure(`${bound}`));
  return { min: shown(min), max: shown(max), word };
}

/** The bounds in words: "at least 3 %", "690 to 790 um". */
export function boundsWords(line: PlanLine): string {
  const { min, max, word } = boundsOf(line);
  const unit = word === "" ? "" : ` ${word}`;
  if (min !== null && max !== null) return say`${min} to ${max}${unit}`;
  return min !== null ? say`at least ${min}${unit}` : say`at most ${max ?? ""}${unit}`;
}

/** The bounds for a narrow column, without their unit. */
export function boundsCell(line: PlanLine): string {
  const { min, max } = boundsOf(line);
  if (min !== null && max !== null) return `${min} ${SIGNS.none} ${max}`;
  return min !== null ? say`min ${min}` : say`max ${max ?? ""}`;
}

export const typicalText = (line: PlanLine): string =>
  line.planned ? valueText({ determinable: true, value: line.typical, unit: line.unit }) : NO_FIGURE;

/** An uncertainty or a width in the unit of its figure, two digits. */
export const spreadText = (spread: number, unit: string): string =>
  figure(unit === "%" ? `${roundHalfAway(spread, 2)} %` : `${significant(spread, 2)}${unitText(unit)}`);

export function uncertaintyText(line: PlanLine): string {
  if (!line.planned) return NO_FIGURE;
  const { um, word } = unitBeside(line.typical);
  return line.unit === "um" ? spreadText(line.U / um, word) : spreadText(line.U, line.unit);
}

/** One word or figure and a sign for a list; a charge that the method does not allow is never called enough. */
export function verdictCell(line: PlanLine, told: Pick<ProductPlan, "plan" | "allowedG">): string {
  if (!line.planned) return say`? not planned`;
  switch (line.verdict) {
    case "decidable":
      return chargeOutside(told) === null ? say`${SIGNS.pass} enough` : say`! not by the method`;
    case "larger charge":
      return say`${SIGNS.borderline} ${chargeText(line.chargeG ?? 0)} in ${portionsText(line.portions ?? 1)}`;
    case "no charge is enough":
      return say`${SIGNS.fail} no charge does`;
    case "too narrow":
      return say`${SIGNS.fail} too narrow`;
    case "typical lies outside":
      return say`${SIGNS.fail} typical is outside`;
  }
}
