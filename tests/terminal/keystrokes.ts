/** What a terminal sends for the keys that a test names; a name of one character is that character. */
const SEQUENCES: Readonly<Record<string, string>> = {
  enter: "\r",
  "keypad enter": "\x1bOM",
  backspace: "\x7f",
  delete: "\x1b[3~",
  insert: "\x1b[2~",
  up: "\x1b[A",
  down: "\x1b[B",
  right: "\x1b[C",
  left: "\x1b[D",
  home: "\x1b[H",
  end: "\x1b[F",
  "page up": "\x1b[5~",
  "page down": "\x1b[6~",
  escape: "\x1b",
  tab: "\t",
  "shift+tab": "\x1b[Z",
  f1: "\x1bOP",
  f2: "\x1bOQ",
  f3: "\x1bOR",
  f4: "\x1bOS",
  f5: "\x1b[15~",
  f6: "\x1b[17~",
  f7: "\x1b[18~",
  f8: "\x1b[19~",
  f9: "\x1b[20~",
  f10: "\x1b[21~",
  f11: "\x1b[23~",
  f12: "\x1b[24~",
};

export function bytesOf(key: string): string {
  const known = SEQUENCES[key];
  if (known) return known;
  const letter = /^ctrl\+([a-z])$/.exec(key)?.[1];
  if (letter) return String.fromCharCode(letter.charCodeAt(0) - 96);
  if ([...key].length === 1) return key;
  throw new Error(`no terminal has a key called "${key}"`);
}
