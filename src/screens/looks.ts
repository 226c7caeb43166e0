import { LANGUAGES, THEME_NAMES, type ThemeName } from "../record/screen.ts";
import { ENGLISH } from "../words/manner.ts";
import { phrase } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import type { LookAtStart } from "./effects/desk.ts";
import type { App, Step } from "./place.ts";
import { step } from "./place.ts";

export const themeOf = ({ theme }: Pick<App, "theme">): ThemeName => theme ?? "dark";

const THEME_WORDS: Readonly<Record<ThemeName, string>> = {
  dark: phrase("theme: dark"),
  light: phrase("theme: light"),
  "high contrast": phrase("theme: high contrast"),
  monochrome: phrase("theme: monochrome"),
};

/** The next theme, at once and for the next start. */
export function nextTheme(app: App): Step {
  const at = THEME_NAMES.indexOf(themeOf(app));
  const theme = THEME_NAMES[(at + 1) % THEME_NAMES.length] ?? "dark";
  return step({ ...app, theme, message: spoken(THEME_WORDS[theme]) }, { do: "keepTheme", theme });
}

/** The next language, as soon as its catalogue has been read. */
export function nextLanguage(app: App): Step {
  const at = LANGUAGES.indexOf((app.manner ?? ENGLISH).language);
  return step({ ...app, message: null }, { do: "speak", language: LANGUAGES[(at + 1) % LANGUAGES.length] ?? "en" });
}

/** The screens as they look when they open. */
export const withLook = (app: App, look: LookAtStart | undefined): App =>
  look === undefined
    ? app
    : {
        ...app,
        theme: look.theme,
        manner: look.manner,
        reader: look.reader,
        message: look.problem ?? app.message,
      };
