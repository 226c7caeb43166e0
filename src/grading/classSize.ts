import type { ClassMean } from "../record/product.ts";

/**
 * The size that stands for a class between two bounds, all in um:
 *
 *     arithmetic (a + b)/2      geometric sqrt(a b)      logarithmic (b - a)/ln(b/a)
 *
 * The logarithmic mean is exact for a surface mean if mass is spread evenly over the class (CP-12).
 *
 * @param lowerUm above 0
 * @param upperUm not below `lowerUm`
 * @example
 * classSizeUm(1000, 4000, "geometric") // => 2000
 * classSizeUm(1000, 4000, "arithmetic") // => 2500
 */
export function classSizeUm(lowerUm: number, upperUm: number, mean: ClassMean): number {
  if (mean === "arithmetic") return (lowerUm + upperUm) / 2;
  if (mean === "geometric") return Math.sqrt(lowerUm * upperUm);
  const wider = (upperUm - lowerUm) / lowerUm;
  return wider === 0 ? lowerUm : (upperUm - lowerUm) / Math.log1p(wider);
}
