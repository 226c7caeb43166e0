/** Characters that a terminal or a CSV line would act on instead of showing, and broken halves of characters. */
export const UNPRINTABLE = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]|\p{Surrogate}/u;
const EACH_UNPRINTABLE = new RegExp(UNPRINTABLE, "gu");

/**
 * What somebody entered, fit to stand in a message: in quotes, on one line, nothing unprintable, shortened.
 *
 * @example quoted("5 21.4") // => '"5 21.4"'
 */
export function quoted(text: string, longest = 30): string {
  const characters = [...text.slice(0, 2 * longest + 2)];
  const shown = characters.length > longest ? `${characters.slice(0, longest - 3).join("")}...` : characters.join("");
  return `"${shown.replace(EACH_UNPRINTABLE, "?")}"`;
}
