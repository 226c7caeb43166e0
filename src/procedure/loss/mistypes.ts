/** How a number can be typed wrong. */
export const SLIPS = [
  "two digits swapped",
  "one digit wrong",
  "a digit left out",
  "a digit typed twice",
  "a wrong hundred, ten or one",
  "the decimal point misplaced",
  "two digits apart swapped",
] as const;
export type Slip = (typeof SLIPS)[number];

/** A number that may have been meant, and the slip that made the typed one of it. */
export interface Meant {
  readonly meantG: number;
  readonly slip: Slip;
}

const DIGITS = [..."0123456789"];
const ZEROS_LOST = 3;

/**
 * Every mass that could have been meant where another was typed, each with the likeliest slip that explains it.
 * A digit that became a leading zero, or a trailing one, is not seen in the number and is thought of all the same.
 *
 * @param typedG the mass as accepted, 0 or more, in g
 * @param decimals the decimals that the balance shows; a meant mass has no more of them
 * @param fits which masses are of interest at all
 * @returns masses in g, none below 0, none twice, the typed one not among them
 * @source common practice, no source
 * @example meantBy(521.4, 1).some((m) => m.meantG === 512.4 && m.slip === "two digits swapped") // => true
 */
export function meantBy(typedG: number, decimals: number, fits: (massG: number) => boolean = () => true): Meant[] {
  const most = Math.max(decimals, decimalsIn(typedG));
  const text = typedG.toFixed(most);
  const padded = "0".repeat(ZEROS_LOST) + text;
  const round = [100, 10, 1].flatMap((by) => [typedG + by, typedG - by]);
  const candidates: Readonly<Record<Slip, readonly string[]>> = {
    "two digits swapped": swapped(padded, true),
    "one digit wrong": replaced(text),
    "a digit left out": [...inserted(text), ...led(text)],
    "a digit typed twice": undoubled(text),
    "a wrong hundred, ten or one": round.map((massG) => massG.toFixed(most)),
    "the decimal point misplaced": [-2, -1, 1, 2].map((power) => `${typedG}e${power}`),
    "two digits apart swapped": swapped(padded, false),
  };
  const meant = new Map<number, Slip>();
  // The commoner slip comes first and keeps its claim on a mass.
  for (const slip of SLIPS)
    for (const massG of candidates[slip].map(Number))
      if (massG >= 0 && massG !== typedG && fits(massG) && !meant.has(massG) && decimalsIn(massG) <= most)
        meant.set(massG, slip);
  return [...meant].map(([meantG, slip]) => ({ meantG, slip }));
}

/** Decimals that the shortest way of writing a mass has: 412.3 has one. */
export const decimalsIn = (massG: number): number => /\.(\d+)$/.exec(String(massG))?.[1]?.length ?? 0;

const placesOf = (text: string): number[] => [...text].flatMap((sign, i) => (sign === "." ? [] : [i]));
const withSign = (text: string, at: number, sign: string): string => text.slice(0, at) + sign + text.slice(at + 1);

function swapped(text: string, neighbours: boolean): string[] {
  const places = placesOf(text);
  return places.flatMap((left, i) =>
    places.slice(i + 1).flatMap((right, apart) => {
      if ((apart === 0) !== neighbours) return [];
      return [withSign(withSign(text, left, text.charAt(right)), right, text.charAt(left))];
    }),
  );
}

/** Nobody writes a leading zero, so none was meant. */
const replaced = (text: string): string[] =>
  placesOf(text)
    .flatMap((at) => DIGITS.map((digit) => withSign(text, at, digit)))
    .filter((meant) => !/^0\d/.test(meant));

function inserted(text: string): string[] {
  const gaps = Array.from({ length: text.length + 1 }, (_, i) => i);
  return gaps.flatMap((at) => DIGITS.map((digit) => text.slice(0, at) + digit + text.slice(at)));
}

/** The first digit was left out, and zeros after it went with it: 2.31 for 402.31. */
function led(text: string): string[] {
  const lost = Array.from({ length: ZEROS_LOST }, (_, i) => "0".repeat(i + 1) + text);
  return lost.flatMap((zeros) => DIGITS.slice(1).map((digit) => digit + zeros));
}

function undoubled(text: string): string[] {
  const places = placesOf(text);
  return places.flatMap((at, i) => {
    const next = places[i + 1];
    return next !== undefined && text[at] === text[next] ? [text.slice(0, next) + text.slice(next + 1)] : [];
  });
}
