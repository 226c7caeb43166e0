import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { quoted } from "../entry/quoted.ts";
import { type NumberStyle, sheetNumber } from "./sheetNumber.ts";

export interface SheetLine {
  /** Counted from 1. */
  readonly number: number;
  readonly text: string;
}

/** What a `#` line may set, by its name in CSV, with the field of the sheet. */
const KEYS = {
  product: "product",
  lot: "lot",
  line: "line",
  charge_g: "chargeG",
  washed_g: "washedG",
  moisture_pct: "moisturePct",
} as const;
type Key = keyof typeof KEYS;
export type KeyField = (typeof KEYS)[Key];
export const KEY_OF_FIELD = Object.fromEntries(Object.entries(KEYS).map(([key, field]) => [field, key]));

export interface SheetKeys {
  readonly fields: Readonly<Partial<Record<KeyField, string | number>>>;
  /** The line on which a field was set. */
  readonly lineOf: Readonly<Partial<Record<string, number>>>;
}

const KNOWN = Object.keys(KEYS).join(", ");
const isKey = (text: string): text is Key => Object.hasOwn(KEYS, text);
const isText = (key: Key) => key === "product" || key === "lot" || key === "line";

/**
 * The lines before a sheet's header: `# key: value`, or a remark without a colon. Separators with which a spreadsheet
 * pads a line to the width of the table are no part of the value; a text in quotation marks is taken as it stands; a
 * key without a value says nothing.
 */
export function sheetKeys(lines: readonly SheetLine[], style: NumberStyle, columns: number): Outcome<SheetKeys> {
  const fields: Partial<Record<KeyField, string | number>> = {};
  const lineOf: Partial<Record<string, number>> = {};
  for (const { number, text } of lines) {
    const bare = withoutPadding(text, style, columns);
    const colon = bare.indexOf(":");
    if (colon === -1) continue;
    const name = bare.slice(1, colon).trim();
    const written = bare.slice(colon + 1).trim();
    if (!isKey(name)) return refused(`line ${number}: unknown key ${quoted(name)}: known are ${KNOWN}`);
    const field = KEYS[name];
    const before = lineOf[field];
    if (before !== undefined) return refused(`line ${number}: ${name} stands twice, the first time on line ${before}`);
    const entry = isText(name) || written === "" ? accepted(unquoted(written)) : sheetNumber(written, style);
    if (!entry.ok) return refused(`line ${number}, ${name}: ${entry.reason}`);
    lineOf[field] = number;
    if (written !== "") fields[field] = entry.value;
  }
  return accepted({ fields, lineOf });
}

function withoutPadding(text: string, { separator }: NumberStyle, columns: number): string {
  const padding = separator.repeat(columns - 1);
  return padding !== "" && text.endsWith(padding) ? text.slice(0, -padding.length) : text;
}

const unquoted = (written: string): string =>
  /^"(?:[^"]|"")*"$/.test(written) ? written.slice(1, -1).replaceAll('""', '"') : written;
