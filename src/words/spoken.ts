import type { Catalogue } from "./catalogue.ts";
import { dayText, figure } from "./figures.ts";
import { catalogueSpoken, speaking } from "./speaking.ts";

/** A message with places to fill in, ready to be found in a sentence. */
interface Pattern {
  readonly message: string;
  /** The longest stretch of its own words: a sentence without it need not be tried. */
  readonly longest: string;
  /** How many letters of its own it has. */
  readonly letters: number;
  /** Its own words, in turn with what is filled in. */
  readonly parts: readonly string[];
}

/** Fewer letters of its own than this, and a message would be found in sentences that are none of it. */
const LEAST_LETTERS = 4;

function patternOf(message: string): Pattern | null {
  const parts = message.split(/\{\d+\}/);
  const letters = parts.join("").replace(/\P{L}/gu, "").length;
  if (parts.length === 1 || letters < LEAST_LETTERS) return null;
  const longest = parts.reduce((a, b) => (b.length > a.length ? b : a));
  return { message, longest, letters, parts };
}

const PATTERNS = new WeakMap<Catalogue, readonly Pattern[]>();
const KNOWN = new WeakMap<Catalogue, Map<string, string>>();
const MOST_KNOWN = 4000;

const ownLetters = ({ message }: Pattern): number => message.replace(/\{\d+\}/g, "").length;

/** Those with most words of their own first: they say most exactly what a sentence is. */
function patternsOf(catalogue: Catalogue): readonly Pattern[] {
  const known = PATTERNS.get(catalogue);
  if (known) return known;
  const made = [...catalogue.messages.keys()]
    .map(patternOf)
    .filter((p) => p !== null)
    .sort((a, b) => ownLetters(b) - ownLetters(a));
  PATTERNS.set(catalogue, made);
  return made;
}

/** A message of fewer letters than this is a name around a figure: it has no sentences in it. */
const LETTERS_OF_SENTENCES = 10;
const ENDS = /\. (?=[A-Z])|; |: /;
/** What ends like this is a part before the message, and was not filled into it. */
const PART_BEFORE = /[,;:]$/;

/** What stands between the parts, as little as can be each time; null where they are not all there in this order. */
function between(parts: readonly string[], sentence: string): readonly string[] | null {
  const [first = "", ...inner] = parts;
  const last = inner.pop() ?? "";
  if (!sentence.startsWith(first) || !sentence.endsWith(last)) return null;
  const given: string[] = [];
  let from = first.length;
  for (const part of inner) {
    const at = sentence.indexOf(part, from + 1);
    if (at < 0) return null;
    given.push(sentence.slice(from, at));
    from = at + part.length;
  }
  const rest = sentence.slice(from, sentence.length - last.length);
  return from + last.length >= sentence.length ? null : [...given, rest];
}

/** What stands for `{0}`, `{1}` ... in a sentence, in the order of these numbers; null where the sentence is another. */
function filledIn({ parts, letters, message }: Pattern, sentence: string): readonly string[] | null {
  const given = between(parts, sentence);
  if (given === null) return null;
  if (given.some((one) => PART_BEFORE.test(one))) return null;
  if (letters < LETTERS_OF_SENTENCES && given.some((one) => ENDS.test(one))) return null;
  const places = [...message.matchAll(/\{(\d+)\}/g)].map(([, place]) => Number(place));
  return places.map((_, i) => given[places.indexOf(i)] ?? "");
}

const NUMBER = /^[-+]?\d+\.\d+$/;
const DAY = /^\d{4}-\d\d-\d\d$/;
/** Where one sentence ends, or one part of it. */
const JOINTS = /((?<!\.\w)\. (?=\p{L})|; |: |, )/u;

/** So few words of its own make no sentence out of two: `{0} tests` is not found in "read again; limits need 8 tests". */
const FEW_LETTERS = 12;

const isTelling = (pattern: Pattern, given: readonly string[]): boolean =>
  ownLetters(pattern) >= FEW_LETTERS || !given.some((text) => JOINTS.test(text));

/** Those of the catalogue that a sentence or any part of it may be: it is looked through once, however many parts it has. */
const patternsIn = (catalogue: Catalogue, sentence: string): readonly Pattern[] =>
  patternsOf(catalogue).filter(({ longest }) => sentence.includes(longest));

/** What follows these is what a person wrote: it stands as it is. */
const WRITTEN = /(?:\b(?:lot|code|called|note:|remark:) |")$/;

/** What was filled in, said in turn; in the order of the numbers of its places. */
const saidOf = ({ message }: Pattern, given: readonly string[]): readonly string[] =>
  given.map((text, i) => (WRITTEN.test(message.slice(0, message.indexOf(`{${i}}`))) ? text : spoken(text)));

function foundIn(catalogue: Catalogue, patterns: readonly Pattern[], sentence: string): string | null {
  if (catalogue.messages.has(sentence)) return catalogue.translate(sentence, []);
  for (const pattern of patterns) {
    const given = filledIn(pattern, sentence);
    if (given && isTelling(pattern, given)) return catalogue.translate(pattern.message, saidOf(pattern, given));
  }
  return null;
}

/** A message that ends in a full stop, which stands at the joint where another sentence follows. */
const beforeDot = (catalogue: Catalogue, patterns: readonly Pattern[], sentence: string): string | null =>
  foundIn(catalogue, patterns, `${sentence}.`)?.replace(/\.$/, "") ?? null;

/** Part by part, the longest that is known first, for what was put together of several messages; what no catalogue knows stays. */
function inParts(catalogue: Catalogue, patterns: readonly Pattern[], sentence: string): string {
  const pieces = sentence.split(JOINTS);
  if (pieces.length === 1) return withFigures(sentence);
  const after = (joint: number): string => `${pieces[joint]}${spoken(pieces.slice(joint + 1).join(""))}`;
  for (let joint = pieces.length - 2; joint > 0; joint -= 2) {
    const part = pieces.slice(0, joint).join("");
    const whole = foundIn(catalogue, patterns, part);
    const said = whole ?? (pieces[joint] === ". " ? beforeDot(catalogue, patterns, part) : null);
    if (said !== null) return said + after(joint);
  }
  return withFigures(pieces[0] ?? "") + after(1);
}

/** The number of an entry reads "Nr. 12" in German, wherever it stands. */
function numbered(sentence: string): string {
  const catalogue = catalogueSpoken();
  if (!catalogue?.messages.has("no. {0}")) return sentence;
  return sentence.replace(/\bno\. (\d+)/g, (_, number: string) => catalogue.translate("no. {0}", [number]));
}

/** What looks like a figure behind these is a name: of a section, of a lot. */
const NAMED = /(?:(?:section|table|clause|annex|edition|lot|los|lote|code|código) |")$/i;

/** Figures and days of a sentence that stays in its words; a section's or a table's number is none. */
function withFigures(sentence: string): string {
  if (NUMBER.test(sentence)) return figure(sentence);
  if (DAY.test(sentence)) return dayText(sentence);
  return numbered(sentence).replace(/(?<![\p{L}\d.:]|[\p{L}\d]-)\d+\.\d+(?=$|[\s,;)%])/gu, (number, at: number) =>
    NAMED.test(sentence.slice(0, at)) ? number : figure(number),
  );
}

/** Blanks around a sentence are layout, none of its words. */
function aloud(catalogue: Catalogue, sentence: string): string {
  const words = sentence.trim();
  const [before = "", after = ""] = words === "" ? [sentence] : sentence.split(words);
  if (words === "") return before;
  const patterns = patternsIn(catalogue, words);
  return before + (foundIn(catalogue, patterns, words) ?? inParts(catalogue, patterns, words)) + after;
}

/**
 * What a room below wrote in English, in the language of the screens: a phrase of a table, or a sentence such as a
 * notice. Records speak English, so that a test reads the same at every station and for ever; the sentence is found
 * again among the messages of the catalogue, and what was filled into it is said in turn.
 *
 * @returns the sentence itself where no catalogue knows it
 */
export function spoken(sentence: string): string {
  const catalogue = catalogueSpoken();
  if (catalogue === null) return speaking().decimal === "point" ? sentence : withFigures(sentence);
  const known = KNOWN.get(catalogue) ?? new Map<string, string>();
  KNOWN.set(catalogue, known);
  const { decimal, dates } = speaking();
  const asked = `${decimal} ${dates} ${sentence}`;
  const before = known.get(asked);
  if (before !== undefined) return before;
  if (known.size >= MOST_KNOWN) known.clear();
  const text = aloud(catalogue, sentence);
  known.set(asked, text);
  return text;
}
