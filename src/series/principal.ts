/** Principal sizes of ISO 565 (R20/3) over three decades; the pattern then repeats, a thousand times larger or smaller. */
const PATTERN = [1, 1.4, 2, 2.8, 4, 5.6, 8, 11.2, 16, 22.4, 31.5, 45, 63, 90, 125, 180, 250, 355, 500, 710] as const;

/**
 * The next size of the principal series R20/3 above an aperture, both in um. Outside the sieves of the standard
 * (45 um to 125 mm) the series goes on by its own rule, twenty sizes in three decades.
 *
 * @throws RangeError for an aperture that is not a positive number
 * @source ISO 565 (recalled); Renard series R20/3
 * @example nextCoarserPrincipalUm(1400) // => 2000
 * @example nextCoarserPrincipalUm(600) // => 710
 * @example nextCoarserPrincipalUm(125000) // => 180000
 */
export function nextCoarserPrincipalUm(apertureUm: number): number {
  if (!(apertureUm > 0 && apertureUm < Number.POSITIVE_INFINITY)) throw new RangeError(`no aperture: ${apertureUm}`);
  const three = 1000 ** Math.floor(Math.log10(apertureUm) / 3);
  const sizes = PATTERN.map((size) => Number((size * three).toPrecision(4)));
  return sizes.find((size) => size > apertureUm) ?? Number((1000 * three).toPrecision(4));
}
