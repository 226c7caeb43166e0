/** More than any record of ours nests, and far less than a parser can be made to choke on. */
const DEEPEST = 64;

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const OPENING_LIST = 0x5b;
const CLOSING_LIST = 0x5d;
const OPENING_OBJECT = 0x7b;
const CLOSING_OBJECT = 0x7d;

/**
 * Whether a JSON text nests deeper than any record, asked before it is parsed: a hundred megabytes of `[` take a parser half
 * a minute and gigabytes, and what is parsed so deep breaks whoever walks it. Stops at the first bracket too many; a text
 * that is no JSON may get either answer.
 *
 * @example isTooDeep("[".repeat(65)) // true
 */
export function isTooDeep(jsonText: string): boolean {
  let depth = 0;
  for (let at = 0; at < jsonText.length; at += 1) {
    const unit = jsonText.charCodeAt(at);
    if (unit === QUOTE) at = endOfString(jsonText, at);
    else if (unit === CLOSING_LIST || unit === CLOSING_OBJECT) depth -= 1;
    else if (unit === OPENING_LIST || unit === OPENING_OBJECT) {
      depth += 1;
      if (depth > DEEPEST) return true;
    }
  }
  return false;
}

/** The closing quote of the string that begins here, or the end of the text. */
function endOfString(text: string, start: number): number {
  let at = start + 1;
  while (at < text.length && text.charCodeAt(at) !== QUOTE) at += text.charCodeAt(at) === BACKSLASH ? 2 : 1;
  return at;
}
