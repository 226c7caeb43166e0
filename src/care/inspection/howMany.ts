import { type Determination, determined, undetermined } from "../../record/determination.ts";
import { describeAperture } from "../../series/describe.ts";

/** Cloth with no more apertures than this is measured whole. */
export const MEASURED_WHOLE = 20;

/**
 * How many apertures of a sieve's cloth are to be measured, in each direction: all of them where it has 20 or fewer.
 * For more, ISO 3310-1 gives numbers that were not seen, and none is made up here.
 *
 * @param inCloth how many apertures the cloth has
 * @returns unit "1"; not determinable above 20
 * @source ISO 3310-1:2016, examination clauses (seen in an extract)
 * @example aperturesToMeasure(16) // => { determinable: true, value: 16, unit: "1" }
 */
export function aperturesToMeasure(inCloth: number): Determination {
  if (inCloth <= MEASURED_WHOLE) return determined(inCloth, "1");
  return undetermined(
    `cloth with more than ${MEASURED_WHOLE} apertures: take the number from the edition in force, it was not seen here`,
  );
}

/**
 * How finely apertures are to be read: 1 um or a quarter of Y, whichever is larger.
 *
 * @returns unit "um"; not determinable where no Y is known
 * @source ISO 3310-1:2016, examination clauses (seen in an extract); Y with the status that `describeAperture` tells
 * @example readToUm(2000) // => { determinable: true, value: 17.5, unit: "um" }
 */
export function readToUm(apertureUm: number): Determination {
  const { meanToleranceUm } = describeAperture(apertureUm);
  if (meanToleranceUm === null) return undetermined(`no Y is known for an aperture of ${apertureUm} um`);
  return determined(Math.max(1, meanToleranceUm / 4), "um");
}
