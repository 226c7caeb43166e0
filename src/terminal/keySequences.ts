import type { Key, NamedKey } from "./keys.ts";

const named = (name: NamedKey): Key => ({ name });
const typed = (text: string): Key => ({ name: "char", text });

const CURSOR_KEYS: Readonly<Record<string, NamedKey>> = {
  A: "up",
  B: "down",
  C: "right",
  D: "left",
  F: "end",
  H: "home",
  P: "f1",
  Q: "f2",
  R: "f3",
  S: "f4",
};

/** Numbers of the VT220 editing and function keys, with the older and the rxvt twins of some. */
const NUMBERED_KEYS: Readonly<Record<number, NamedKey>> = {
  1: "home",
  2: "insert",
  3: "delete",
  4: "end",
  5: "page up",
  6: "page down",
  7: "home",
  8: "end",
  11: "f1",
  12: "f2",
  13: "f3",
  14: "f4",
  15: "f5",
  17: "f6",
  18: "f7",
  19: "f8",
  20: "f9",
  21: "f10",
  23: "f11",
  24: "f12",
};

/** The numeric keypad in application mode: ESC O and one of these. */
const KEYPAD: Readonly<Record<string, Key>> = {
  M: named("enter"),
  I: named("tab"),
  " ": typed(" "),
  X: typed("="),
  j: typed("*"),
  k: typed("+"),
  l: typed(","),
  m: typed("-"),
  n: typed("."),
  o: typed("/"),
  p: typed("0"),
  q: typed("1"),
  r: typed("2"),
  s: typed("3"),
  t: typed("4"),
  u: typed("5"),
  v: typed("6"),
  w: typed("7"),
  x: typed("8"),
  y: typed("9"),
};

const LINUX_CONSOLE_KEYS: Readonly<Record<string, NamedKey>> = {
  "[A": "f1",
  "[B": "f2",
  "[C": "f3",
  "[D": "f4",
  "[E": "f5",
};

const own = <T>(table: Readonly<Record<string, T>>, entry: string): T | undefined =>
  Object.hasOwn(table, entry) ? table[entry] : undefined;

const shiftTab = (body: string): boolean => body === "Z" || body === "1;2I" || body === "27;2;9~";

/**
 * The key that a control sequence stands for: `body` is what follows ESC [ (xterm, rxvt, Linux console, Windows) with
 * no modifier held, but for shift+tab. Everything else, ctrl+F1 or a report of the terminal's, is null.
 */
export function keyOfControlSequence(body: string): Key | null {
  if (shiftTab(body)) return named("shift+tab");
  const console = own(LINUX_CONSOLE_KEYS, body);
  if (console) return named(console);
  const [, digits = "", final = ""] = /^(\d*)(?:;1)?([A-Z~])$/.exec(body) ?? [];
  if (final === "~") {
    const numbered = own(NUMBERED_KEYS, digits);
    return numbered ? named(numbered) : null;
  }
  const cursor = digits === "" || digits === "1" ? own(CURSOR_KEYS, final) : undefined;
  return cursor ? named(cursor) : null;
}

/** The key that ESC O and `body` stand for: cursor keys, F1 to F4 and the keypad in application mode; else null. */
export function keyOfSingleShift(body: string): Key | null {
  const cursor = own(CURSOR_KEYS, body);
  return cursor ? named(cursor) : (own(KEYPAD, body) ?? null);
}

const LETTERS = "abcdefghijklmnopqrstuvwxyz";

/** The key of one character that belongs to no sequence; null for a control character that is no key of ours. */
export function keyOfCharacter(character: string): Key | null {
  const code = character.codePointAt(0) ?? 0;
  if (code === 0x0d || code === 0x0a) return named("enter");
  if (code === 0x09) return named("tab");
  if (code === 0x7f || code === 0x08) return named("backspace");
  if (code >= 1 && code <= 26) return { name: `ctrl+${LETTERS[code - 1]}` as NamedKey };
  return code < 0x20 || (code >= 0x80 && code < 0xa0) ? null : typed(character);
}
