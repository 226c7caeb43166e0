import { type Determination, determined, undetermined } from "../../record/determination.ts";
import { isAbove } from "../compare.ts";

/**
 * In how many equal portions the charge must be sieved, one after another, so that no sieve holds more than it may:
 * the largest ratio of held to allowed mass, rounded up. The residues of all portions are added before grading.
 *
 * @param netG masses held by the sieves in one run of the whole charge, in g
 * @param limitsG what each may hold, in the same order, in g
 * @returns unit "1", at least 1; not determinable if a limit is missing or not above 0
 * @source ASTM C136/C136M-19 clause 8 and EN 933-1 name splitting as the cure; the count is plain arithmetic
 * @example portionsNeeded([120, 430, 90], [200, 200, 200]) // => { determinable: true, value: 3, unit: "1" }
 */
export function portionsNeeded(netG: readonly number[], limitsG: readonly number[]): Determination {
  if (netG.length !== limitsG.length || limitsG.some((limit) => !(limit > 0)))
    return undetermined("not every sieve has a limit of load");
  const ratio = Math.max(0, ...netG.map((net, i) => net / (limitsG[i] ?? 1)));
  const whole = Math.max(1, Math.floor(ratio));
  return determined(isAbove(ratio, whole) ? whole + 1 : whole, "1");
}
