import type { Cloth, Sieve } from "../../record/sieve.ts";
import { describeAperture } from "../../series/describe.ts";

/** What the apertures of a sieve are judged against, in um, and how well that is founded. */
export interface ApertureLimits {
  /** Y, about the nominal aperture. */
  readonly meanUm: number;
  /** X, above the nominal aperture. */
  readonly maxUm: number;
  /** Z, above the nominal aperture. */
  readonly intermediateUm: number;
  readonly figures: "tabulated" | "computed";
  /** Where the figures come from and whether they were seen, in words. */
  readonly founded: string;
}

/** A reason, in words, where there are no limits. */
export type NoLimits = { readonly reason: string };

/**
 * Limits of a test sieve's apertures. They are those of woven wire cloth; for perforated plate (ISO 3310-2) and
 * electroformed sheet (ISO 3310-3) none are known here.
 *
 * @source as `describeAperture`: printed where a table was seen, else by formula (recalled)
 */
export function apertureLimits(apertureUm: number, cloth: Cloth): ApertureLimits | NoLimits {
  if (cloth !== "woven wire") return { reason: `no limits are known here for a ${cloth}: take them from its standard` };
  const { meanToleranceUm, maxDeviationUm, intermediateDeviationUm, figures, founded } = describeAperture(apertureUm);
  if (meanToleranceUm === null || maxDeviationUm === null || intermediateDeviationUm === null)
    return { reason: "no limits are known for an aperture outside 20 um to 125 mm" };
  const from = founded.find((f) => f.figure === "aperture limits");
  const words = from ? `${from.standing}: ${from.source}` : "computed: formulas of ISO 3310-1, recalled";
  const limits = { meanUm: meanToleranceUm, maxUm: maxDeviationUm, intermediateUm: intermediateDeviationUm };
  return { ...limits, figures, founded: `limits ${words}; the edition in force decides` };
}

/**
 * How far, in um, the mean aperture of a sieve may lie off its nominal one.
 *
 * @returns Y; null where no limits are known for this cloth or aperture
 * @source as `apertureLimits`
 */
export function toleranceYUm({ apertureUm, cloth = "woven wire" }: Pick<Sieve, "apertureUm" | "cloth">): number | null {
  const limits = apertureLimits(apertureUm, cloth);
  return "reason" in limits ? null : limits.meanUm;
}

/** Whether a mean aperture in um lies more than Y off the nominal one; on Y is within, and never beyond where Y is not known. */
export const isBeyondY = (meanUm: number, apertureUm: number, yUm: number | null): boolean =>
  yUm !== null && Math.abs(meanUm - apertureUm) > yUm;
