import { type Determination, determined, undetermined } from "../../record/determination.ts";
import { isAbove } from "../compare.ts";

/**
 * What washing took away, as % of the dry mass before it.
 *
 *     A = 100 (B - C) / B      B dry mass before, C dry mass after washing
 *
 * @returns unit "%"; not determinable where nothing was weighed or the washed mass is the larger
 * @source ASTM C117 / AASHTO T 11 (formula recalled)
 * @example washLossPct(500, 480) // => { determinable: true, value: 4, unit: "%" }
 */
export function washLossPct(beforeG: number, afterG: number): Determination {
  if (!(beforeG > 0)) return undetermined("the dry mass before washing is not given");
  if (isAbove(afterG, beforeG))
    return undetermined("the sample is heavier after washing than before: dry and weigh again");
  return determined((100 * (beforeG - afterG)) / beforeG, "%");
}

/**
 * Fines of a washed test: what washing took away and what the dry run still let into the pan, as % of the dry mass
 * before washing. ASTM C117 with C136 and EN 933-1 write the same sum differently:
 *
 *     fines = A + 100 P / B                (A as in `washLossPct`; 75 um sieve)
 *     f     = 100 ((M1 - M2) + P) / M1     (M1 = B, M2 = C; 63 um sieve)
 *
 * Figures of the two methods are not interchangeable, their wash sieves differ.
 *
 * @returns unit "%"; not determinable as `washLossPct`, or for a pan heavier than what was washed
 * @source ASTM C117, C136 (recalled); EN 933-1 (words seen, formula recalled)
 */
export function finesPct(beforeG: number, afterG: number, panG: number): Determination {
  const washed = washLossPct(beforeG, afterG);
  if (!washed.determinable) return washed;
  if (isAbove(panG, afterG)) return undetermined("the pan holds more than was left after washing: weigh it again");
  return determined(washed.value + (100 * panG) / beforeG, "%");
}
