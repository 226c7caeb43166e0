import { keyOfCharacter, keyOfControlSequence, keyOfSingleShift } from "./keySequences.ts";
import type { Key } from "./keys.ts";
import { gatherPaste, type PasteGatherer } from "./paste.ts";

const ESC = "\x1b";

// Nothing that a terminal sends is nearly as long as these bounds; they keep a stray introducer from swallowing keys.
const CONTROL_BODY = "[\\x30-\\x3f]{0,64}[\\x20-\\x2f]{0,8}";
const STRING_BODY = "[\\]P^_X][^\\x00-\\x1f]{0,1024}";

/** A whole sequence: 1 the body of ESC [ ..., 2 the body of ESC O ..., neither: a string of the terminal's, never a key. */
const WHOLE = new RegExp(
  `\x1b(?:\\[(\\[[A-E]|\\d+\\$|(?!\\[)${CONTROL_BODY}[\\x40-\\x7e])|O(\\d?[\\x20A-Za-z])|${STRING_BODY}(?:\\x07|\x1b\\\\))`,
  "y",
);
/** The start of a sequence whose rest may come in the next chunk. */
const UNFINISHED = new RegExp(`\x1b(?:\\[(?:\\[|${CONTROL_BODY})|O\\d?|${STRING_BODY}\x1b?)?$`, "y");
/** What is left of a sequence when something else breaks into it. */
const BROKEN = new RegExp(`\x1b(?:\\[\\[|\\[${CONTROL_BODY}|O\\d?|${STRING_BODY})?`, "y");

function matchAt(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}

/** Escape and the character behind it were typed after all; anything longer is a sequence cut short, which is no key. */
function keysOfBroken(sequence: string): readonly Key[] {
  const follower = sequence.length === 2 ? keyOfCharacter(sequence.slice(1)) : null;
  if (follower) return [{ name: "escape" }, follower];
  return sequence.length === 1 ? [{ name: "escape" }] : [];
}

interface Reading {
  readonly length: number;
  readonly keys: readonly Key[];
  readonly opensPaste?: boolean;
}

/** The sequence that starts at `at`, or null if its rest may still come. */
function sequenceAt(text: string, at: number): Reading | null {
  const whole = matchAt(WHOLE, text, at);
  if (whole) {
    const [sequence, control, single = ""] = whole;
    const key = control === undefined ? keyOfSingleShift(single) : keyOfControlSequence(control);
    return { length: sequence.length, keys: key ? [key] : [], opensPaste: control === "200~" };
  }
  if (matchAt(UNFINISHED, text, at)) return null;
  const broken = matchAt(BROKEN, text, at)?.[0] ?? ESC;
  return { length: broken.length, keys: keysOfBroken(broken) };
}

/** Text from the terminal to keys, whatever the chunks; knows no time and no bursts. */
export interface Tokeniser {
  /** Keys that `text` completes, in order. A sequence or paste that has not ended stays inside. */
  read(text: string): readonly Key[];
  /** The rest will not come: what is held inside as keys. */
  giveUp(): readonly Key[];
  /** The next line feed is no longer the second half of a carriage return. */
  forgetReturn(): void;
  holding(): "nothing" | "sequence" | "paste";
}

export function createTokeniser(): Tokeniser {
  let held = "";
  let afterReturn = false;
  let paste: PasteGatherer | null = null;

  /** Each of these takes what starts at `at` and returns where it ends. */
  const readCharacter = (text: string, at: number, keys: Key[]): number => {
    const character = String.fromCodePoint(text.codePointAt(at) ?? 0);
    const secondHalf = character === "\n" && afterReturn;
    afterReturn = character === "\r";
    const key = secondHalf ? null : keyOfCharacter(character);
    if (key) keys.push(key);
    return at + character.length;
  };

  const readSequence = (text: string, at: number, keys: Key[]): number => {
    afterReturn = false;
    const sequence = sequenceAt(text, at);
    if (sequence === null) {
      held = text.slice(at);
      return text.length;
    }
    keys.push(...sequence.keys);
    if (sequence.opensPaste) paste = gatherPaste();
    return at + sequence.length;
  };

  const readPaste = (text: string, at: number, open: PasteGatherer, keys: Key[]): number => {
    const end = open.gather(text, at);
    if (end === null) return text.length;
    paste = null;
    const entry = open.finish();
    if (entry) keys.push(entry);
    return end;
  };

  const readOne = (text: string, at: number, keys: Key[]): number => {
    if (paste) return readPaste(text, at, paste, keys);
    return text[at] === ESC ? readSequence(text, at, keys) : readCharacter(text, at, keys);
  };

  return {
    read(chunk) {
      const text = held + chunk;
      const keys: Key[] = [];
      held = "";
      for (let at = 0; at < text.length; ) at = readOne(text, at, keys);
      return keys;
    },
    giveUp() {
      const keys = paste ? [paste.finish()].filter((key) => key !== null) : held === "" ? [] : keysOfBroken(held);
      held = "";
      paste = null;
      return keys;
    },
    forgetReturn() {
      afterReturn = false;
    },
    holding: () => (paste ? "paste" : held === "" ? "nothing" : "sequence"),
  };
}
