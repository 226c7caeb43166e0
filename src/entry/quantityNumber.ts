import { accepted, type Outcome, refused } from "./outcome.ts";
import { quoted } from "./quoted.ts";

/** The separator that a station has set, or that a file is seen to use, before the decimals. */
export type DecimalMark = "point" | "comma";

export const MOST_INTEGER_DIGITS = 7;
export const MOST_DECIMALS = 6;
const LONGEST = 60;

/**
 * A number as a person or a typing balance writes it: digits with at most one separator, point or comma, before the
 * decimals; a sign may stand before it, apart or not. One separator always begins decimals, never thousands:
 * `1,234` is 1.234, because balances of three decimals write so. Where the decimal mark is known and the other one
 * stands before exactly three digits, as in thousands, the text has two readings and is refused.
 *
 * @param times10To shifts the decimal point on the text, so that 0.5214 kg is 521.4 g exactly
 * @returns the number (never -0), or why not: no digits, two separators, a space inside, an exponent, more than
 *   7 digits before or 6 after the separator
 * @source common practice, no source
 * @example parseNumber("521,40") // => { ok: true, value: 521.4 }
 */
export function parseNumber(text: string, decimal?: DecimalMark, times10To = 0): Outcome<number> {
  const parts = /^([+-]?)[ \t\u00a0]*(\d*)(?:([.,])(\d*))?$/.exec(text.trim());
  if (text.length > LONGEST || !parts) return refused(whyNot(text));
  const [, sign = "", integer = "", mark, decimals = ""] = parts;
  const fault = digitsFault(text, integer, mark, decimals) ?? thousandsFault(text, integer, mark, decimals, decimal);
  if (fault !== null) return refused(fault);
  const size = Number(`${integer || "0"}.${decimals || "0"}e${times10To}`);
  return accepted(sign === "-" && size !== 0 ? -size : size);
}

function digitsFault(text: string, integer: string, mark: string | undefined, decimals: string): string | null {
  if (integer === "" && decimals === "") return text.trim() === "" ? "nothing was entered" : whyNot(text);
  if (mark !== undefined && decimals === "")
    return `${quoted(text.trim())} ends in a separator: type the decimals or leave it out`;
  if (integer.replace(/^0+/, "").length > MOST_INTEGER_DIGITS)
    return `${quoted(text.trim())} has more than ${MOST_INTEGER_DIGITS} digits before the decimals`;
  if (decimals.length > MOST_DECIMALS) return `${quoted(text.trim())} has more than ${MOST_DECIMALS} decimals`;
  return null;
}

/** Thousands are 1 to 3 digits, the first not 0, then three more. */
function thousandsFault(
  text: string,
  integer: string,
  mark: string | undefined,
  decimals: string,
  decimal: DecimalMark | undefined,
): string | null {
  const other = decimal === undefined ? undefined : { point: ",", comma: "." }[decimal];
  if (mark !== other || decimals.length !== 3 || !/^[1-9]\d{0,2}$/.test(integer)) return null;
  const meant = `${integer}${decimal === "comma" ? "," : "."}${decimals}`;
  return `${quoted(text.trim())} can be read in two ways: type ${integer}${decimals} or ${meant}`;
}

function whyNot(text: string): string {
  const entered = text.trim();
  const marks = entered.match(/[.,]/g)?.length ?? 0;
  if (/^[+-]?\s*[\d.,]+$/.test(entered) && marks > 1) return `${quoted(entered)} has ${severalMarks(entered, marks)}`;
  if (/^[+-]?\s*[\d.,]+(\s+[\d.,]+)+$/.test(entered)) return `${quoted(entered)} has a space inside the number`;
  if (/^[+-]?[\d.,]+e[+-]?\d+$/i.test(entered)) return `${quoted(entered)} has an exponent: type it in full`;
  return `${quoted(entered)} is not a number`;
}

function severalMarks(entered: string, marks: number): string {
  const [, before = "", after = ""] = /^(.*)[.,](.*)$/.exec(entered) ?? [];
  const digits = before.replace(/[.,]/g, "");
  const thousandsThenDecimals = marks === 2 && entered.includes(".") && entered.includes(",") && digits !== "";
  const count = marks === 2 ? "two" : `${marks}`;
  return `${count} separators: type ${thousandsThenDecimals && after !== "" ? `${digits}.${after}` : "one, before the decimals"}`;
}
