import type { Language, ThemeName } from "../../record/screen.ts";
import { keepScreenChoice } from "../../store/screenFile.ts";
import { mannerOf } from "../../words/manner.ts";
import { say } from "../../words/say.ts";
import { fetchLanguage, inManner } from "../../words/speaking.ts";
import type { Desk } from "./desk.ts";

/** Remembers a choice, and those made before it, for the next start; where nothing may be written it holds for this time only. */
async function keep(desk: Desk, choice: { theme?: ThemeName; language?: Language }): Promise<void> {
  if (desk.store.readOnly !== null) return;
  const { theme, manner } = desk.app();
  const before = { ...(theme && { theme }), ...(manner && { language: manner.language }) };
  const kept = await keepScreenChoice(desk.store.folder, { ...before, ...choice });
  if (!kept.ok) desk.show({ ...desk.app(), message: kept.reason });
}

/** Remembers the theme. */
export const keepTheme = (desk: Desk, theme: ThemeName): Promise<void> => keep(desk, { theme });

const NAMES: Readonly<Record<Language, string>> = { en: "English", de: "Deutsch", es: "español" };

/** Speaks another language from now on, and remembers it. */
export async function speak(desk: Desk, language: Language): Promise<void> {
  await fetchLanguage(language);
  const manner = mannerOf(desk.app().station, language);
  const message = inManner(manner, () => say`language: ${NAMES[language]}`);
  desk.show({ ...desk.app(), manner, message });
  await keep(desk, { language });
}
