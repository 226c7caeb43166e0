import { accepted, type Outcome, refused } from "./outcome.ts";
import { parseNumber } from "./quantityNumber.ts";
import { quoted } from "./quoted.ts";

/** What a shaker did otherwise than planned, as far as it was said. */
export interface RunOtherwise {
  readonly strokeMm?: number;
  readonly peakAccelerationG?: number;
  readonly frequencyHz?: number;
  readonly durationS?: number;
}

/** One figure and its unit: which setting it is, and what it counts. */
const UNITS: Readonly<Record<string, readonly [keyof RunOtherwise, number]>> = {
  mm: ["strokeMm", 1],
  g: ["peakAccelerationG", 1],
  hz: ["frequencyHz", 1],
  min: ["durationS", 60],
  s: ["durationS", 1],
};

function setting(part: string): Outcome<readonly [keyof RunOtherwise, number]> {
  const [, figure = "", unit = ""] = /^\s*([\d.,]+)\s*([A-Za-z]+)\s*$/.exec(part) ?? [];
  const known = UNITS[unit.toLowerCase()];
  if (figure === "" || !known) return refused(`${quoted(part.trim())} is not read: say it like 1.0 mm; 45 Hz; 8 min`);
  const number = parseNumber(figure);
  if (!number.ok) return number;
  if (number.value <= 0) return refused(`${quoted(part.trim())} must be more than 0`);
  return accepted([known[0], number.value * known[1]]);
}

/**
 * What the shaker did otherwise, as an operator says it: `1.0 mm; 45 Hz; 8 min`, parts apart by semicolons. The stroke
 * is peak to peak in mm, the peak acceleration in g, the time in min or s.
 *
 * @returns the settings that were said, or the part that can't be read
 * @source common practice, no source
 * @example parseRunOtherwise("8 min; 45 Hz") // => { ok: true, value: { durationS: 480, frequencyHz: 45 } }
 */
export function parseRunOtherwise(text: string): Outcome<RunOtherwise> {
  const read = text.split(";").map(setting);
  const wrong = read.find((part) => !part.ok);
  if (wrong && !wrong.ok) return wrong;
  return accepted(Object.fromEntries(read.flatMap((part) => (part.ok ? [part.value] : []))));
}
