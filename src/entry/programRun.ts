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

/** A unit: which setting it is of, what it counts, and the most that a record holds. */
interface Unit {
  readonly of: keyof RunOtherwise;
  readonly times: number;
  readonly most: number;
}

const UNITS: Readonly<Record<string, Unit>> = {
  mm: { of: "strokeMm", times: 1, most: 100 },
  g: { of: "peakAccelerationG", times: 1, most: 100 },
  hz: { of: "frequencyHz", times: 1, most: 1000 },
  min: { of: "durationS", times: 60, most: 1440 },
  s: { of: "durationS", times: 1, most: 86_400 },
};

function setting(part: string): Outcome<readonly [keyof RunOtherwise, number]> {
  const [, figure = "", unit = ""] = /^\s*([\d.,]+)\s*([A-Za-z]+)\s*$/.exec(part) ?? [];
  const known = UNITS[unit.toLowerCase()];
  if (figure === "" || !known) return refused(`${quoted(part.trim())} is not read: say it like 1.0 mm; 45 Hz; 8 min`);
  const number = parseNumber(figure);
  if (!number.ok) return number;
  if (number.value <= 0) return refused(`${quoted(part.trim())} must be more than 0`);
  if (number.value > known.most) return refused(`${quoted(part.trim())} is more than ${known.most} ${unit}`);
  return accepted([known.of, number.value * known.times]);
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
  const settings = read.flatMap((part) => (part.ok ? [part.value] : []));
  const twice = settings.findIndex(([key], i) => settings.findIndex(([other]) => other === key) < i);
  if (twice >= 0) return refused(`${quoted((text.split(";")[twice] ?? "").trim())} says a setting twice: say it once`);
  return accepted(Object.fromEntries(settings));
}
