import type { DateOrder, Language } from "../record/screen.ts";
import type { Station } from "../record/station.ts";

/** How the screens speak: in which language, with which decimal sign, and in which order a date is written. */
export interface Manner {
  readonly language: Language;
  readonly decimal: "point" | "comma";
  readonly dates: DateOrder;
}

/** What records, files and commands speak, and the screens until told otherwise. */
export const ENGLISH: Manner = { language: "en", decimal: "point", dates: "year first" };

/** What people who speak a language write, where the station does not say otherwise. */
const USUAL: Readonly<Record<Language, Manner>> = {
  en: ENGLISH,
  de: { language: "de", decimal: "comma", dates: "day first" },
  es: { language: "es", decimal: "comma", dates: "day first" },
};

/** How a station's screens speak in a language: its own decimal sign and order of dates go before the language's. */
export function mannerOf({ decimal, screen }: Pick<Station, "decimal" | "screen">, language: Language): Manner {
  const usual = USUAL[language];
  return { language, decimal: decimal ?? usual.decimal, dates: screen?.dates ?? usual.dates };
}
