import { type Determination, determined, undetermined } from "../record/determination.ts";
import type { Sieve } from "../record/sieve.ts";
import type { KnownAperture } from "../record/uncertainty.ts";

export const APERTURE_CHOICES = ["nominal", "certified", "effective"] as const;
/** Which aperture a product's curve is drawn over: a declared choice, shown on the record. */
export type ApertureChoice = (typeof APERTURE_CHOICES)[number];

/**
 * Mean aperture of a sieve by its certificate: the mean over both directions of the cloth.
 *
 * @returns unit "um"; not determinable without a certificate
 */
export function certifiedMeanUm({ certificate, serial }: Sieve): Determination {
  if (certificate === undefined) return undetermined(`${serial} has no certificate in the register`);
  const { warp, weft, day } = certificate;
  const meanUm = weft ? (warp.meanUm + weft.meanUm) / 2 : warp.meanUm;
  return determined(meanUm, "um", [`mean aperture by the certificate of ${day}`]);
}

/** What a certificate lets a test know of the aperture of a sieve; null where it doesn't say how sure it is. */
export function knownApertureOf(sieve: Sieve): KnownAperture | null {
  const mean = certifiedMeanUm(sieve);
  const expandedUm = sieve.certificate?.expandedUm;
  if (!mean.determinable || expandedUm === undefined) return null;
  return { apertureUm: sieve.apertureUm, serial: sieve.serial, meanUm: mean.value, expandedUm };
}

/**
 * The aperture in um that a sieve stands for on the curve: its nominal one, the certified mean, or the effective one
 * found with a reference material. What is chosen but not known is not replaced by another.
 *
 * @param effectiveUm as `referenceCheck` gave it for this sieve
 * @returns unit "um", with what it rests on
 */
export function apertureChosen(sieve: Sieve, choice: ApertureChoice, effectiveUm?: Determination): Determination {
  if (choice === "nominal") return determined(sieve.apertureUm, "um", ["nominal aperture"]);
  if (choice === "certified") return certifiedMeanUm(sieve);
  if (effectiveUm === undefined) return undetermined(`${sieve.serial} was not run with a reference material`);
  if (!effectiveUm.determinable) return effectiveUm;
  return determined(effectiveUm.value, "um", ["effective aperture by a reference material"]);
}
