import type { Outcome } from "../entry/outcome.ts";
import { grade } from "../grading/grade.ts";
import type { Grading, GradingChoices } from "../grading/grading.ts";

/** A graded test with the choices by which values are drawn from it. */
export interface Graded {
  readonly grading: Grading;
  readonly choices: GradingChoices;
  /** The pan was not weighed but is what the charge leaves over. */
  readonly panAssumed?: boolean;
  /** Whether passing % at an aperture that the stack lacks may be read from the curve. */
  readonly interpolateMissing?: boolean;
}

/**
 * The masses of a test in g as one list: the net masses, coarsest sieve first and the pan last, then the charge, then
 * the dry mass after washing. A mass that the test does not have is 0 and never varies.
 */
export type Masses = Float64Array;

export const panAt = ({ grading }: Graded): number => grading.rows.length - 1;
export const chargeAt = ({ grading }: Graded): number => grading.rows.length;
export const washedAt = ({ grading }: Graded): number => grading.rows.length + 1;
export const massCount = ({ grading }: Graded): number => grading.rows.length + 2;

export const isWashed = ({ grading }: Graded): boolean => grading.chargeG !== null && grading.washLossG > 0;

export function massesOf(graded: Graded): Masses {
  const { rows, chargeG, washLossG } = graded.grading;
  const washedG = isWashed(graded) ? (chargeG ?? 0) - washLossG : 0;
  return Float64Array.of(...rows.map((row) => row.netG), chargeG ?? 0, washedG);
}

/** The test graded anew with other masses, by the grading's own function; or why these masses cannot be graded. */
export function regraded(graded: Graded, masses: Masses): Outcome<Grading> {
  const { rows, basis, chargeG } = graded.grading;
  const fractions = rows.map(({ apertureUm, meanUm }, i) => ({
    apertureUm,
    ...(meanUm === undefined ? {} : { meanUm }),
    emptyG: null,
    fullG: null,
    netG: masses[i] ?? 0,
  }));
  return grade(fractions, {
    basis,
    chargeG: chargeG === null ? null : (masses[chargeAt(graded)] ?? 0),
    washedG: isWashed(graded) ? (masses[washedAt(graded)] ?? 0) : null,
  });
}
