import { roundHalfAway } from "../grading/rounding.ts";
import { apertureText } from "../series/apertureText.ts";

const MOST_DECIMALS = 6;

/** Rounded, with more decimals where that is needed to tell it from the figure that it stands beside. */
function told(figure: number, decimals: number, beside: number | undefined): string {
  const text = roundHalfAway(figure, decimals);
  const alike = beside !== undefined && beside !== figure && text === roundHalfAway(beside, decimals);
  return alike && decimals < MOST_DECIMALS ? told(figure, decimals + 1, beside) : text;
}

/**
 * A mass in words: three decimals below 1 g, two below 100 g, one below 1 kg, then whole grams; more where it would
 * read like `beside`, the limit that it is compared with.
 *
 * @example massWords(299.96, 300) // => "299.96 g"
 */
export function massWords(massG: number, beside?: number): string {
  const size = Math.abs(massG);
  return `${told(massG, size < 1 ? 3 : size < 100 ? 2 : size < 1000 ? 1 : 0, beside)} g`;
}

/**
 * A percentage in words, two decimals; more where it would read like `beside`.
 *
 * @example pctWords(0.3004, 0.3) // => "0.3004 %"
 */
export const pctWords = (pct: number, beside?: number): string => `${told(pct, 2, beside)} %`;

/**
 * A ratio in whole per cent, with decimals where it would else read like 100 %.
 *
 * @example shareWords(1.0003) // => "100.03 %"
 */
export const shareWords = (ratio: number): string => `${told(100 * ratio, 0, 100)} %`;

/** The sieve, or the pan, in a sentence. */
export const sieveWords = (apertureUm: number): string =>
  apertureUm === 0 ? "the pan" : `the ${apertureText(apertureUm)} sieve`;

/**
 * Names in a sentence.
 *
 * @example listed(["a", "b", "c"]) // => "a, b and c"
 */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? "";
  return words.length < 2 ? last : `${words.slice(0, -1).join(", ")} and ${last}`;
}

/**
 * A time in words, without units that are 0.
 *
 * @example durationWords(3900) // => "1 h 5 min"
 */
export function durationWords(seconds: number): string {
  const whole = Math.round(seconds);
  const parts = [
    { count: Math.floor(whole / 3600), unit: "h" },
    { count: Math.floor((whole % 3600) / 60), unit: "min" },
    { count: whole % 60, unit: "s" },
  ].filter((part) => part.count > 0);
  return parts.length === 0 ? "0 s" : parts.map((part) => `${part.count} ${part.unit}`).join(" ");
}
