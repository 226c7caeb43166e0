import type { Grading } from "../grading/grading.ts";
import { isOverMeans } from "../grading/standsAt.ts";
import type { Determination } from "../record/determination.ts";
import {
  chargeAt,
  type Graded,
  isWashed,
  type Masses,
  massCount,
  massesOf,
  panAt,
  regraded,
  washedAt,
} from "./graded.ts";
import { type Measurand, measured } from "./measurand.ts";
import { slopeOf } from "./propagation.ts";

/** How much a number changes for each gram of each mass (order of `Masses`), in its own unit per g. */
export type Sensitivity = Float64Array;

/** Steps of the differences, as parts of the total: never so small that rounding shows, never so large that curves bend. */
const [LEAST_STEP, MOST_STEP] = [1e-6, 1e-2];

/** Of the recovered total: `dP_i/dm_j = 100 (1 if j is finer, else 0 - P_i) / B`; the wash loss counts as finer. */
function ofRecovered(graded: Graded, row: number): Sensitivity {
  const { rows, totalG } = graded.grading;
  const share = (rows[row]?.passingPct ?? 0) / 100;
  const perG = new Float64Array(massCount(graded));
  for (const j of rows.keys()) perG[j] = (100 * ((j > row ? 1 : 0) - share)) / totalG;
  if (isWashed(graded)) {
    perG[chargeAt(graded)] = (100 * (1 - share)) / totalG;
    perG[washedAt(graded)] = (-100 * (1 - share)) / totalG;
  }
  return perG;
}

/** Of the charge: `dP_i/dm_j = -100 / B` for all that is not finer, and `dP_i/dB = coarser / B`. */
function ofCharge(graded: Graded, row: number): Sensitivity {
  const { rows, totalG } = graded.grading;
  const perG = new Float64Array(massCount(graded));
  perG.fill(-100 / totalG, 0, row + 1);
  perG[chargeAt(graded)] = (rows[row]?.coarserPct ?? 0) / totalG;
  return perG;
}

/**
 * Sensitivity of passing % at a sieve of the stack (0 the coarsest), in closed form; 0 at the pan, which passes 0 by
 * definition.
 *
 * @source JCGM 100 clause 5.1 applied to the formulas of `grade`
 */
export function passingSensitivity(graded: Graded, row: number): Sensitivity {
  if (row === panAt(graded)) return new Float64Array(massCount(graded));
  return graded.grading.basis === "charge" ? ofCharge(graded, row) : ofRecovered(graded, row);
}

function ofShare(graded: Graded, on: Extract<Measurand, { apertureUm: number }>, row: number): Sensitivity {
  const own = passingSensitivity(graded, row);
  if (on.kind === "passingPct") return own;
  if (on.kind === "coarserPct") return own.map((perG) => -perG);
  if (row === 0) return own.map((perG) => -perG);
  return passingSensitivity(graded, row - 1).map((perG, j) => perG - (own[j] ?? 0));
}

/** The test graded with one mass a step lighter and a step heavier; null where those masses cannot be graded. */
interface Nudged {
  readonly at: number;
  readonly stepG: number;
  readonly lighter: Grading | null;
  readonly heavier: Grading | null;
}

function gradedAt(graded: Graded, masses: Masses, at: number, massG: number): Grading | null {
  if (massG < 0) return null;
  const changed = masses.slice();
  changed[at] = massG;
  const outcome = regraded(graded, changed);
  return outcome.ok ? outcome.value : null;
}

function nudges(graded: Graded, uG: Float64Array): Nudged[] {
  const masses = massesOf(graded);
  const { totalG } = graded.grading;
  return [...uG.keys()].flatMap((at) => {
    const u = uG[at] ?? 0;
    if (u === 0) return [];
    const stepG = Math.min(MOST_STEP * totalG, Math.max(LEAST_STEP * totalG, u));
    const massG = masses[at] ?? 0;
    const lighter = gradedAt(graded, masses, at, massG - stepG);
    return [{ at, stepG, lighter, heavier: gradedAt(graded, masses, at, massG + stepG) }];
  });
}

const numberIn = (on: Measurand, grading: Grading | null, graded: Graded): number | null => {
  const found = grading === null ? null : measured(on, grading, graded);
  return found?.determinable ? found.value : null;
};

/** The quotient of differences to both sides, or to one side where the other cannot be graded or determined. */
function byDifferences(on: Measurand, graded: Graded, nudged: readonly Nudged[]): Sensitivity {
  const middle = numberIn(on, graded.grading, graded) ?? 0;
  const perG = new Float64Array(massCount(graded));
  for (const { at, stepG, lighter, heavier } of nudged) {
    perG[at] = slopeOf(numberIn(on, lighter, graded), middle, numberIn(on, heavier, graded), stepG);
  }
  return perG;
}

/** A number of a test with its sensitivities; without them where there is no number. */
export interface Sensitive {
  readonly on: Measurand;
  readonly found: Determination;
  readonly perG: Sensitivity;
}

/**
 * Sensitivities of all that is asked: shares at sieves of the stack (curve over nominal apertures) in closed form, everything else numerically
 * through the grading's own functions, with steps of one standard uncertainty of each mass (between 1e-6 and 1 % of
 * the total). Masses that do not vary are left out.
 *
 * @param uG standard uncertainty of each mass in g, all components together
 * @source JCGM 100 clause 5.1.3 note 2 (memory): `c_i u_i = [f(x_i + u_i) - f(x_i - u_i)] / 2`
 */
export function sensitivities(graded: Graded, uG: Float64Array, asked: readonly Measurand[]): Sensitive[] {
  let made: Nudged[] | null = null;
  const nudged = () => {
    made ??= nudges(graded, uG);
    return made;
  };
  return asked.map((on) => {
    const found = measured(on, graded.grading, graded);
    if (!found.determinable) return { on, found, perG: new Float64Array(massCount(graded)) };
    const own = "apertureUm" in on && !isOverMeans(graded.grading);
    const row = own ? graded.grading.rows.findIndex((r) => r.apertureUm === on.apertureUm) : -1;
    const perG = own && row >= 0 ? ofShare(graded, on, row) : byDifferences(on, graded, nudged());
    return { on, found, perG };
  });
}
