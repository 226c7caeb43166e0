import { type Outcome, refused } from "./outcome.ts";
import { isMassUnit, parseMassG } from "./quantity.ts";
import { quoted } from "./quoted.ts";

/** Words and signs that a balance puts beside a mass: that it stands still, that it still moves, or nothing of weight. */
export interface ReadingMarks {
  readonly atRest?: readonly string[] | undefined;
  readonly moving?: readonly string[] | undefined;
  readonly passedOver?: readonly string[] | undefined;
}

/** Without other word from the station. */
export const USUAL_MARKS = {
  atRest: ["S", "ST", "STABLE"],
  moving: ["?", "*", "~", "U", "US", "D", "M", "UNSTABLE"],
  passedOver: ["N", "NT", "NET", "G", "GS", "GROSS", "W", "MASS"],
} as const satisfies Record<keyof ReadingMarks, readonly string[]>;

/** The mass that a vessel was tared with: never a weighing. */
const TARE = ["T", "TR", "PT", "TARE"];

/** A comma right behind a letter parts a word from the number; elsewhere it may begin decimals. */
const NUMBER = /[+-]?[ \t]*(?:\d+(?:[.,]\d+)*|(?<!\p{L})[.,]\d+)/u;
const DAY = "\\d{4}-\\d{1,2}-\\d{1,2}|\\d{1,2}[./]\\d{1,2}[./]\\d{2,4}";
const CLOCK = "\\d{1,2}:\\d{2}(?::\\d{2})?";
const STAMP = `(?:(?:${DAY})(?:[T\\s,;]+${CLOCK})?|${CLOCK})`;
const STAMP_BEFORE = new RegExp(`^${STAMP}(?:[\\s,;]+|$)`);
const STAMP_BEHIND = new RegExp(`[\\s,;]+${STAMP}$`);
const LONGEST = 60;

/** Without day and clock at its ends, and without the brackets around a digit finer than verified. */
const unstamped = (line: string): string =>
  line
    .replaceAll("\u00a0", " ")
    .trim()
    .replace(STAMP_BEFORE, "")
    .replace(STAMP_BEHIND, "")
    .replace(/\[(\d)\]/, "$1");

const tokens = (text: string): string[] => text.match(/\p{L}+|[^\s,;:\p{L}]+/gu) ?? [];

interface Parts {
  readonly mass: string;
  /** What stands around it, in capitals. */
  readonly around: readonly string[];
}

/** The number with its unit, and what stands before and behind; null where there is no number. */
function partsOf(line: string): Parts | null {
  const found = NUMBER.exec(line);
  if (found === null) return null;
  const [number] = found;
  const [unit = "", ...behind] = tokens(line.slice(found.index + number.length));
  const hasUnit = isMassUnit(unit);
  const rest = hasUnit || unit === "" ? behind : [unit, ...behind];
  const around = [...tokens(line.slice(0, found.index)), ...rest].map((token) => token.toUpperCase());
  return { mass: hasUnit ? `${number} ${unit}` : number, around };
}

const has = (marks: readonly string[], token: string): boolean => marks.some((mark) => mark.toUpperCase() === token);

/** A line that says more than a number: a sign, a unit, a mark. */
export type Reading = { readonly marked: boolean; readonly massG: Outcome<number> };

/**
 * A mass in g as a balance prints it: a number, by point or comma, with a sign apart or not, a unit (g, kg, mg), marks of rest
 * and words like net or gross around it, day and clock at an end. `S  N  +  521.40 g`, `521,40 g ?`, `10:02 521.40`.
 *
 * @param marks what this station's balance writes, instead of `USUAL_MARKS`
 * @returns the mass; or why it is none: still moving, a tare, and for any other line what `parseMassG` says of it. `marked`
 *   tells whether the line could hardly be anything but a mass
 * @source common practice, no source: no maker's protocol is followed
 * @example readingOf("N  +  521.40 g  S").massG // => { ok: true, value: 521.4 }
 */
export function readingOf(text: string, marks: ReadingMarks = {}): Reading {
  const { atRest = USUAL_MARKS.atRest, moving = USUAL_MARKS.moving, passedOver = USUAL_MARKS.passedOver } = marks;
  const line = text.length > LONGEST ? text : unstamped(text);
  if (line === "" && text.trim() !== "")
    return { marked: false, massG: refused(`${quoted(text.trim())} is a day or a time, and no mass`) };
  const parts = text.length > LONGEST ? null : partsOf(line);
  const plain = { marked: false, massG: parseMassG(text) };
  if (parts === null) return plain;
  const { mass, around } = parts;
  if (!around.every((token) => [atRest, moving, passedOver, TARE].some((all) => has(all, token)))) return plain;
  const marked = around.length > 0 || /^[+-]|\p{L}$/u.test(mass);
  const moves = around.find((token) => has(moving, token));
  if (moves !== undefined)
    return { marked, massG: refused(`the balance says it is not at rest (${moves}): wait, then send it again`) };
  const tare = around.find((token) => has(TARE, token) && !has(passedOver, token) && !has(atRest, token));
  if (tare !== undefined)
    return { marked, massG: refused(`${quoted(text.trim())} is the tare (${tare}): send the net or the gross mass`) };
  return { marked, massG: parseMassG(mass) };
}
