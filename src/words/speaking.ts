import type { Language } from "../record/screen.ts";
import type { Catalogue } from "./catalogue.ts";
import { ENGLISH, type Manner } from "./manner.ts";

const FETCHED = new Map<Language, Catalogue>();
let manner = ENGLISH;

/** How the words now being made are made. The one thing of this room that changes: a frame is drawn in one manner from end to end. */
export const speaking = (): Manner => manner;

/** The catalogue of the language now spoken; null for English, which is what the messages are written in. */
export const catalogueSpoken = (): Catalogue | null => FETCHED.get(manner.language) ?? null;

/** From now on, for what is not drawn: messages that come back from the disk. */
export function speakIn(next: Manner): void {
  manner = next;
}

/** Makes something in a manner, whatever was spoken before, and leaves that as it was. */
export function inManner<T>(next: Manner, work: () => T): T {
  const before = manner;
  manner = next;
  try {
    return work();
  } finally {
    manner = before;
  }
}

/** Reads the catalogue of a language, once; until then it is spoken in English. */
export async function fetchLanguage(language: Language): Promise<void> {
  if (language === "en" || FETCHED.has(language)) return;
  const [{ catalogueOf }, { default: messages }] = await Promise.all([
    import("./catalogues/catalogueOf.ts"),
    language === "de" ? import("./catalogues/de.ts") : import("./catalogues/es.ts"),
  ]);
  FETCHED.set(language, await catalogueOf(language, messages));
}
