import { accepted, type Outcome, refused } from "./outcome.ts";
import { type DecimalMark, parseNumber } from "./quantityNumber.ts";
import { quoted } from "./quoted.ts";

/** The largest mass that a record holds. */
export const MOST_MASS_G = 1e7;
const POWER_OF_TEN: Readonly<Record<string, number>> = { "": 0, g: 0, kg: 3, mg: -3 };

export const isMassUnit = (word: string): boolean => word !== "" && POWER_OF_TEN[word.toLowerCase()] !== undefined;

/**
 * A mass in g, as typed or as a balance types it: `521.4`, `521,40`, ` +  521.40 g`, `0.5214 kg`, `521400 mg`.
 * Without a unit it is g. What a balance writes around the mass is taken off by `readingOf`.
 *
 * @param decimal the station's decimal mark, for what fingers typed: then `1,234` at a station that writes points is
 *   refused as ambiguous. For what a balance typed leave it out: one separator then always begins decimals.
 * @returns the mass, negative if so entered (a net mass can be), or why it can't be read, in words
 * @source common practice, no source
 * @example parseMassG(" +  521.40 g") // => { ok: true, value: 521.4 }
 * @example parseMassG("0.5214 kg") // => { ok: true, value: 521.4 }
 */
export function parseMassG(text: string, decimal?: DecimalMark): Outcome<number> {
  const unit = /\p{Letter}*$/u.exec(text.slice(-20).trimEnd())?.[0] ?? "";
  const number = text.trimEnd().slice(0, -unit.length || undefined);
  if (!/\d/.test(number)) return parseNumber(text, decimal);
  const power = POWER_OF_TEN[unit.toLowerCase()];
  const massG = parseNumber(number, decimal, power);
  if (massG.ok && power === undefined) return refused(`the unit ${quoted(unit)} is not read here: enter g, kg or mg`);
  if (massG.ok && Math.abs(massG.value) > MOST_MASS_G) return refused(`${quoted(text.trim())} is more than 10000 kg`);
  return massG.ok ? accepted(massG.value) : massG;
}
