import type { BalanceConditions, ComponentId } from "../conditions.ts";
import { type Graded, massCount, panAt } from "../graded.ts";
import { type Cause, type Component, included, notIncluded, type Shape } from "./component.ts";
import { readingsOf } from "./readings.ts";

function perReading(graded: Graded, balance: BalanceConditions, uG: number, shape: Shape): Cause[] {
  return readingsOf(graded, balance).map((times) => ({
    shape,
    byMassG: times.map((t) => t * uG),
  }));
}

interface OfReading {
  readonly id: ComponentId;
  readonly figureG: number | undefined;
  /** Standard uncertainty over the figure. */
  readonly factor: number;
  readonly shape: Shape;
  readonly missing: string;
  readonly told: (figureG: number) => string;
}

function ofReading(graded: Graded, balance: BalanceConditions, of: OfReading): Component {
  if (of.figureG === undefined) return notIncluded(of.id, of.missing);
  return included(of.id, of.told(of.figureG), perReading(graded, balance, of.figureG * of.factor, of.shape));
}

/** Every reading is rounded to the step d of the display: even within d/2 either way, `u = d / sqrt 12` a reading. */
export const readability = (graded: Graded, balance: BalanceConditions): Component =>
  ofReading(graded, balance, {
    id: "readability",
    figureG: balance.readabilityG,
    factor: 1 / Math.sqrt(12),
    shape: "rectangular",
    missing: "the step of the balance is not known",
    told: (stepG) => `each reading within half a step of ${stepG} g`,
  });

/** Every reading scatters by the balance's repeatability, `u = s` a reading. */
export const repeatability = (graded: Graded, balance: BalanceConditions): Component =>
  ofReading(graded, balance, {
    id: "repeatability",
    figureG: balance.repeatabilityG,
    factor: 1,
    shape: "normal",
    missing: "the repeatability of the balance is not stated",
    told: (sG) => `each reading with a standard deviation of ${sG} g`,
  });

/**
 * Every reading deviates from the straight line by at most the linearity, `u = a / sqrt 3` a reading; counted once for
 * each reading, as the loads differ.
 *
 * @source EURACHEM/CITAC guide QUAM, example A2 (memory): counted twice, for the tare and for the gross mass
 */
export const linearity = (graded: Graded, balance: BalanceConditions): Component =>
  ofReading(graded, balance, {
    id: "linearity",
    figureG: balance.linearityG,
    factor: 1 / Math.sqrt(3),
    shape: "rectangular",
    missing: "the linearity of the balance is not stated",
    told: (offG) => `each reading off the straight line by at most ${offG} g`,
  });

/** All empty weighings come before all full ones: a zero that moved between them adds the same to every net mass. */
export function drift(graded: Graded, { driftG, portions = 1 }: BalanceConditions): Component {
  if (driftG === undefined) return notIncluded("drift", "the drift of the balance is not stated");
  const byMassG = new Float64Array(massCount(graded));
  const weighed = graded.panAssumed ? panAt(graded) : panAt(graded) + 1;
  byMassG.fill((portions * driftG) / Math.sqrt(3), 0, weighed);
  if (graded.panAssumed) byMassG[panAt(graded)] = -byMassG.subarray(0, weighed).reduce((sum, g) => sum + g, 0);
  const told = `the same on every net mass, at most ${driftG} g`;
  return included("drift", told, [{ shape: "rectangular", byMassG }]);
}
