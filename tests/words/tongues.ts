import type { Language } from "../../src/record/screen.ts";
import { mannerOf } from "../../src/words/manner.ts";
import { fetchLanguage, inManner } from "../../src/words/speaking.ts";

/** Makes something as the screens of a station would that has chosen nothing but the language. */
export async function inLanguage<T>(language: Language, work: () => T): Promise<T> {
  await fetchLanguage(language);
  return inManner(mannerOf({}, language), work);
}
