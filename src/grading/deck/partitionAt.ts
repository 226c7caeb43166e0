import type { Interpolation } from "../../record/product.ts";
import { stepAt } from "../curve.ts";
import { READINGS } from "../interpolation/readings.ts";
import type { PartitionClass } from "./partition.ts";
import { partitionCurve } from "./partitionSize.ts";

/**
 * The partition curve at any size, for a drawing of it: % that goes over, exactly each class's own at its middle and read
 * between middles as `partitionSizeUm` reads it (CP-4). Where the curve falls with size, which the other rules are not
 * made for, it is read log-linearly.
 *
 * @returns a function of the size in um: 0 to 100 %, or null beyond the classes that have a partition number
 * @source as `partitionSizeUm`
 */
export function partitionAt(
  classes: readonly PartitionClass[],
  interpolation: Interpolation,
): (sizeUm: number) => number | null {
  const curve = partitionCurve(classes);
  const [finestUm = Number.POSITIVE_INFINITY, coarsestUm = 0] = [curve.apertureUm[0], curve.apertureUm.at(-1)];
  return (sizeUm) => {
    if (!(sizeUm >= finestUm && sizeUm <= coarsestUm)) return null;
    const own = curve.passingPct[curve.apertureUm.indexOf(sizeUm)];
    if (own !== undefined) return own;
    const k = curve.apertureUm.findIndex((um) => um > sizeUm) - 1;
    const { fromPct, toPct } = stepAt(curve, k);
    const { passingPct } = READINGS[toPct >= fromPct ? interpolation : "log-linear"];
    return passingPct(curve, k, sizeUm);
  };
}
