import type { Conditions, SamplingConditions } from "../conditions.ts";
import type { Graded } from "../graded.ts";
import { grainsOf } from "../grainCount.ts";
import { type Component, type CountedRow, included, notIncluded } from "./component.ts";
import { countedCauses } from "./grains.ts";

type Stated = Extract<SamplingConditions, { kind: "stated" }>;
type Fundamental = Extract<SamplingConditions, { kind: "fundamental" }>;

const asCounted = (graded: Graded, told: string, rows: readonly CountedRow[]): Component =>
  included("sampling", told, countedCauses(graded, rows), { kind: "counted", rows });

/** As if all were grains of one mass: `u(P) = 2 sd50 sqrt(Q (1 - Q))` in % passing, which is sd50 at 50 %. */
function stated(graded: Graded, { sdPctAt50 }: Stated): Component {
  const { recoveredG, rows } = graded.grading;
  const grainG = recoveredG * (sdPctAt50 / 50) ** 2;
  const counted = rows.flatMap(({ netG }, row) => (netG > 0 ? [{ row, grainG, grains: netG / grainG, part: 1 }] : []));
  const exact = counted.map((row) => ({ ...row, part: row.grains / (row.grains + 0.5) }));
  return asCounted(graded, `the product's own figure: ${sdPctAt50} % passing at 50 %`, exact);
}

/** The stages before the charge, `1/M_sample - 1/M_lot` against `1/M_charge`, and grouping on top of all stages. */
function partOf(chargeG: number, { sampleG, lotG, grouping = 0 }: Fundamental): number {
  const ofLot = lotG === undefined ? 0 : chargeG / lotG;
  const before = Math.max(0, chargeG / sampleG - ofLot);
  return before + grouping * Math.max(0, 1 - ofLot);
}

function fundamental(graded: Graded, conditions: Conditions, sampling: Fundamental): Component {
  const counted = grainsOf(graded, conditions.material);
  if (!counted) return notIncluded("sampling", "Gy's error needs the particle density of the product");
  const part = partOf(graded.grading.totalG, sampling);
  if (part === 0) return notIncluded("sampling", "the sample is the lot: nothing was sampled");
  const rows = counted.flatMap(({ row, netG, grainG }) =>
    netG > 0 ? [{ row, grainG, grains: netG / grainG, part }] : [],
  );
  return asCounted(graded, `Gy's fundamental error of a sample of ${sampling.sampleG} g`, rows);
}

/**
 * From the lot to the sample that the charge was split from. Either the product's own standard deviation, or Gy's
 * fundamental error of the stages before the charge, by size classes: the variance of the count of grains times
 * `M_charge (1/M_sample - 1/M_lot)`, so that together with the charge's own `1 - M_charge/M_sample` all stages make
 * `1/M_charge - 1/M_lot`. Grouping and segregation come on top as a multiple of the whole.
 *
 * @source P. Gy; F. Pitard (memory); B. A. Wills on stages of division; lecture notes CM3820
 */
export function sampling(graded: Graded, conditions: Conditions): Component {
  const how = conditions.sampling;
  if (!how) return notIncluded("sampling", "nothing is said about how the charge was sampled from the lot");
  return how.kind === "stated" ? stated(graded, how) : fundamental(graded, conditions, how);
}
