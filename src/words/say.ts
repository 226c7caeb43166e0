import { figure } from "./figures.ts";
import { catalogueSpoken } from "./speaking.ts";

const MESSAGES = new WeakMap<TemplateStringsArray, string>();

/** The message of a template, with `{0}`, `{1}` ... for what is filled in: its key in the catalogues. */
function messageOf(parts: TemplateStringsArray): string {
  const known = MESSAGES.get(parts);
  if (known !== undefined) return known;
  const message = parts.slice(1).reduce((text, part, i) => `${text}{${i}}${part}`, parts[0] ?? "");
  MESSAGES.set(parts, message);
  return message;
}

/**
 * A message in the language of the screens. What is filled in stands as it is (numbers with the decimal sign in use),
 * so what a person wrote is never translated.
 *
 * @example say`so far ${"62.17"} g of ${"300.20"} g charge` // => "so far 62.17 g of 300.20 g charge", in English
 */
export function say(parts: TemplateStringsArray, ...given: readonly (string | number)[]): string {
  const texts = given.map((one) => (typeof one === "number" ? figure(String(one)) : one));
  const catalogue = catalogueSpoken();
  if (catalogue === null) return parts.slice(1).reduce((text, part, i) => text + texts[i] + part, parts[0] ?? "");
  return catalogue.translate(messageOf(parts), texts);
}

/** Marks a message of a table that is made before anybody speaks; `spoken` says it when it is shown. */
export const phrase = (message: string): string => message;
