import { accepted, type Outcome, refused } from "../entry/outcome.ts";

const startsLike = (name: string, typed: string) => name.toLowerCase().startsWith(typed.toLowerCase());

/**
 * One of a list of names, by its number in the list (1, 2, ...), by itself, or by its beginning if only one begins so.
 * An empty list takes any text.
 */
export function pick(typed: string, names: readonly string[], what: string): Outcome<string> {
  if (names.length === 0) return accepted(typed.trim());
  const exact = names.find((name) => name.toLowerCase() === typed.trim().toLowerCase());
  const numbered = /^\d{1,2}$/.test(typed) ? names[Number(typed) - 1] : undefined;
  const like = names.filter((name) => startsLike(name, typed.trim()));
  const found = exact ?? numbered ?? (like.length === 1 ? like[0] : undefined);
  if (found !== undefined) return accepted(found);
  return refused(
    like.length > 1 ? `${what} "${typed}" could be ${like.join(" or ")}` : `no ${what} is called "${typed}"`,
  );
}
