/**
 * The nominal aperture of a sieve in full, so that two sieves never read alike: um below 1 mm, else mm with at least
 * three significant digits. Aperture 0 is the pan.
 *
 * @example apertureText(710) // => "710 um"
 * @example apertureText(1400) // => "1.40 mm"
 */
export function apertureText(apertureUm: number): string {
  if (apertureUm === 0) return "pan";
  if (apertureUm < 1000) return `${apertureUm} um`;
  const mm = apertureUm / 1000;
  const padded = mm.toPrecision(3);
  return `${mm < 1000 && Number(padded) === mm ? padded : mm} mm`;
}

/**
 * The same without idle zeros, as the standards name it.
 *
 * @example nominalText(1400) // => "1.4 mm"
 */
export const nominalText = (apertureUm: number): string =>
  apertureUm < 1000 ? `${apertureUm} um` : `${apertureUm / 1000} mm`;
