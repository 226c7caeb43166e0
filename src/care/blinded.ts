import { type Determination, determined, undetermined } from "../record/determination.ts";
import { describeAperture } from "../series/describe.ts";

/** 1 kg/m3 in g/um3. */
const G_PER_UM3_PER_KG_M3 = 1e-15;

/**
 * About what share of a sieve's apertures a caught mass blinds, if each aperture holds one round grain of its size:
 *
 *     share = m / (rho pi/6 w^3) / (area / (w + wire)^2),   as %, at most 100
 *
 * @param frameMm diameter of the cloth in mm; the frame's own is a little more
 * @returns unit "%"; not determinable for an aperture whose wire is not known
 * @source geometry; nominal wire as `describeAperture`
 * @example Math.round(blindedPct(0.5, 250, 200, 2650)["value"]) // => 12
 */
export function blindedPct(caughtG: number, apertureUm: number, frameMm: number, densityKgM3: number): Determination {
  const { wireUm } = describeAperture(apertureUm);
  if (wireUm === null) return undetermined(`no wire is known for an aperture of ${apertureUm} um`);
  const grainG = densityKgM3 * G_PER_UM3_PER_KG_M3 * (Math.PI / 6) * apertureUm ** 3;
  const areaUm2 = (Math.PI / 4) * (frameMm * 1000) ** 2;
  const apertures = areaUm2 / (apertureUm + wireUm) ** 2;
  const pct = Math.min(100, (100 * Math.max(0, caughtG)) / grainG / apertures);
  return determined(pct, "%", ["one round grain in each blinded aperture"]);
}
