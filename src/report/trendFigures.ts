import type { ControlChart } from "../control/controlChart.ts";
import { roundHalfAway } from "../grading/rounding.ts";
import { figure } from "../words/figures.ts";
import { sizeText } from "./figures.ts";

const MOST_DECIMALS = 6;

/** Decimals to which the figures of a chart mean something: the first one that its scatter moves. */
export function chartDecimals({ sigma, unit }: Pick<ControlChart, "sigma" | "unit">): number {
  const least = unit === "%" ? 1 : 0;
  if (!sigma.determinable) return unit === "um" ? 0 : Math.max(least, 2);
  return Math.min(MOST_DECIMALS, Math.max(least, Math.ceil(-Math.log10(sigma.value))));
}

/** A number of a chart without its unit, for its axis. */
export const chartNumber = (found: number, chart: Pick<ControlChart, "sigma" | "unit">): string =>
  figure(roundHalfAway(found, chartDecimals(chart)));

/** The same with its unit; sizes as everywhere. */
export function chartText(found: number, chart: Pick<ControlChart, "sigma" | "unit">): string {
  if (chart.unit === "um") return sizeText(found);
  return chart.unit === "1" ? chartNumber(found, chart) : `${chartNumber(found, chart)} ${chart.unit}`;
}
