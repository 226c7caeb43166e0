import { type Determination, determined, undetermined } from "../../record/determination.ts";
import type { ChargeRule } from "../rules/ruleSet.ts";

/**
 * The smallest test portion in g that stands for the material, by the rule of the method.
 *
 *     by size, next row:  the row of the nominal largest size, or of the next larger size listed
 *     by size, square:    the row of that size; between rows (D/10)^2 kg with D in mm, never below the first row
 *     fixed:              the same for every material
 *
 * @param largestMm nominal largest particle in mm; undefined where it is not known
 * @returns unit "g"; not determinable without the size or beyond the table
 * @source ASTM C136 (recalled), EN 933-1 (recalled), Washington State DOT T 27_T 11 (seen)
 */
export function minimumChargeG(rule: ChargeRule, largestMm: number | undefined): Determination {
  if (rule.kind === "fixed") return determined(rule.minG, "g");
  if (largestMm === undefined) return undetermined("the largest particle of the product is not given");
  const row = rule.rows.find((r) => largestMm <= r.upToMm);
  if (row === undefined) return undetermined(`the table ends at ${rule.rows.at(-1)?.upToMm} mm`);
  const between = row.upToMm !== largestMm && row !== rule.rows[0];
  const squareG = Math.max((largestMm / 10) ** 2 * 1000, rule.rows[0]?.minG ?? 0);
  return determined(between && rule.between === "square" ? squareG : row.minG, "g");
}
