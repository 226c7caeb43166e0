import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { parseMassG } from "../../entry/quantity.ts";
import { type DecimalMark, parseNumber } from "../../entry/quantityNumber.ts";
import { quoted } from "../../entry/quoted.ts";
import { code, day, text } from "../../record/fields.ts";
import { nominalText } from "../../series/apertureText.ts";
import { apertureOf } from "../../series/designation.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";

type Read = (text: string) => Outcome<string>;

/** Why something can't be read, in the language of the screens. */
const unread = ({ reason }: { readonly reason: string }): Outcome<string> => refused(spoken(reason));

/** Words, at most so many characters. */
export const words =
  (longest: number): Read =>
  (typed) =>
    text(longest).safeParse(typed).success
      ? accepted(typed)
      : refused(say`at most ${longest} characters, no control characters`);

/** A reason says something: three characters at least. */
export const reason: Read = (typed) => (typed.length < 3 ? refused(say`say it in words`) : words(200)(typed));

export const name: Read = (typed) => {
  const read = code.safeParse(typed);
  if (read.success) return accepted(typed);
  const [issue] = read.error.issues;
  return refused(`${quoted(typed)} ${issue ? spoken(issue.message) : say`is no name`}`);
};

export const dayTyped: Read = (typed) =>
  day.safeParse(typed).success ? accepted(typed) : refused(say`a day like 2026-11-24, not ${quoted(typed)}`);

/** An aperture by any of its names, kept as the standards name it. */
export const aperture: Read = (typed) => {
  const read = apertureOf(typed);
  return read.ok ? accepted(nominalText(read.value)) : unread(read);
};

/** The aperture of an answer, in um. */
export const apertureIn = (answer: string): number | undefined => {
  const read = apertureOf(answer);
  return read.ok ? read.value : undefined;
};

/** A mass above 0, kept in g. */
export const mass =
  (decimal: DecimalMark): Read =>
  (typed) => {
    const read = parseMassG(typed, decimal);
    if (!read.ok) return unread(read);
    return read.value > 0 ? accepted(`${read.value}`) : refused(say`a mass here is more than 0 g`);
  };

/** A number above 0. */
export const above0 =
  (decimal: DecimalMark): Read =>
  (typed) => {
    const read = parseNumber(typed, decimal);
    if (!read.ok) return unread(read);
    return read.value > 0 ? accepted(`${read.value}`) : refused(say`must be more than 0`);
  };

/** A whole number from 1 on. */
export const whole: Read = (typed) =>
  /^[1-9]\d{0,5}$/.test(typed) ? accepted(typed) : refused(say`a whole number from 1 on, not ${quoted(typed)}`);

/** Nothing, or a number. */
export const numberOf = (answer: string): number | undefined => (answer === "" ? undefined : Number(answer));

/** An object without the fields that nothing was answered for. */
export const filled = <T extends object>(fields: T): { [K in keyof T]: Exclude<T[K], undefined> } =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined && value !== "")) as {
    [K in keyof T]: Exclude<T[K], undefined>;
  };
