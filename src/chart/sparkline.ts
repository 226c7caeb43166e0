import { isKnown } from "./known.ts";

const UNICODE = "▁▂▃▄▅▆▇█";
const ASCII = "_.-~=+*#";

/**
 * The newest `width` values as one row of bars, the lowest bar for the least of them, the highest for the greatest; equal
 * values stand in the middle, a missing one is a space. At most `width` columns.
 *
 * @example sparkline([1, 2, 3, null, 8], 10) // => "▁▂▃ █"
 */
export function sparkline(values: readonly (number | null)[], width: number, ascii = false): string {
  const bars = ascii ? ASCII : UNICODE;
  const top = bars.length - 1;
  const shown = values.slice(-Math.max(0, Math.floor(width)) || values.length);
  const known = shown.filter(isKnown);
  const least = Math.min(...known);
  const range = Math.max(...known) - least;
  const barOf = (value: number | null) => {
    if (!isKnown(value)) return " ";
    return bars[range > 0 ? Math.round(((value - least) / range) * top) : Math.floor(top / 2)] ?? " ";
  };
  return shown.map(barOf).join("");
}
