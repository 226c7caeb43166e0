import { roundHalfAway, significant } from "./rounding.ts";

/** A share in percent for a sentence: one decimal, none if it is whole; "less than 0.1" where one decimal shows nothing. */
export function pctWords(pct: number): string {
  if (pct > 0 && pct < 0.05) return "less than 0.1 %";
  return `${roundHalfAway(pct, 1).replace(/\.0$/, "")} %`;
}

/** A size that is no sieve's aperture for a sentence: um below 1 mm, mm from 1 mm, three significant digits. */
export function sizeWords(sizeUm: number): string {
  const um = significant(sizeUm, 3);
  return Number(um) < 1000 ? `${um} um` : `${significant(sizeUm / 1000, 3)} mm`;
}

/** A mean aperture: like a size, with four significant digits, so that it is told from the nominal one. */
export function meanText(meanUm: number): string {
  const um = significant(meanUm, 4);
  return Number(um) < 1000 ? `${um} um` : `${significant(meanUm / 1000, 4)} mm`;
}

/** "a", "a and b", "a, b and c". */
export function listWords(items: readonly string[]): string {
  const last = items.at(-1) ?? "";
  return items.length < 2 ? last : `${items.slice(0, -1).join(", ")} and ${last}`;
}
