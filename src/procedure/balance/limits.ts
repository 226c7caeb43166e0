import limitsFile from "../../../data/check-weights.json" with { type: "json" };
import type { WeightClass } from "../../record/checks.ts";
import { type Determination, determined, undetermined } from "../../record/determination.ts";

export type BalanceClass = "I" | "II" | "III" | "IIII";

/**
 * How far a check weight itself may be from its nominal mass, in mg.
 *
 * @returns unit "mg"; not determinable for a mass that the table lacks
 * @source OIML R 111 (rows recalled; 2 kg and 5 kg agree with rows that were seen)
 * @example weightLimitMg(500, "F2") // => { determinable: true, value: 8, unit: "mg", assumptions: ["recalled"] }
 */
export function weightLimitMg(nominalG: number, weightClass: WeightClass): Determination {
  const row = limitsFile.weights.rows.find((r) => r.nominalG === nominalG);
  if (row === undefined) return undetermined(`no limit is known here for a weight of ${nominalG} g`);
  return determined(row[weightClass], "mg", ["recalled"]);
}

/**
 * How far a verified balance in service may be off at a load, in g: 0.5, 1 or 1.5 scale intervals e by the class's
 * steps at first verification, twice that in service. A proposal for the tolerance of a balance check, no more.
 *
 * @returns unit "g"; not determinable beyond the class's largest load
 * @source OIML R 76 (steps seen; the factor 2 in service recalled)
 * @example balanceLimitG("II", 0.1, 400) // => { determinable: true, value: 0.1, unit: "g", assumptions: ["recalled"] }
 */
export function balanceLimitG(balanceClass: BalanceClass, intervalG: number, loadG: number): Determination {
  const row = limitsFile.balances.rows.find((r) => r.class === balanceClass);
  const intervals = loadG / intervalG;
  if (row === undefined || (row.mostE !== null && intervals > row.mostE))
    return undetermined(`a balance of class ${balanceClass} does not weigh ${loadG} g in steps of ${intervalG} g`);
  const initially = intervals <= row.halfUpToE ? 0.5 : intervals <= row.oneUpToE ? 1 : 1.5;
  return determined(initially * limitsFile.balances.inService.factor * intervalG, "g", ["recalled"]);
}
