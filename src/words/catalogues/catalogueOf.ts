import { createInstance } from "i18next";
import type { Language } from "../../record/screen.ts";
import type { Catalogue } from "../catalogue.ts";

/** A catalogue made ready: English messages as keys, `{0}`, `{1}` ... where something is filled in. */
export async function catalogueOf(language: Language, messages: Readonly<Record<string, string>>): Promise<Catalogue> {
  const library = createInstance();
  const translate = await library.init({
    lng: language,
    fallbackLng: false,
    resources: { [language]: { translation: messages } },
    keySeparator: false,
    nsSeparator: false,
    interpolation: { prefix: "{", suffix: "}", escapeValue: false },
  });
  return {
    messages: new Map(Object.entries(messages)),
    translate: (message, given) => translate(message, Object.fromEntries(given.entries())),
  };
}
