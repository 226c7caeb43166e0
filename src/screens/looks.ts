import { THEME_NAMES, type ThemeName } from "../record/screen.ts";
import type { LookAtStart } from "./effects/desk.ts";
import type { App, Step } from "./place.ts";
import { step } from "./place.ts";

export const themeOf = ({ theme }: Pick<App, "theme">): ThemeName => theme ?? "dark";

/** The next theme, at once and for the next start. */
export function nextTheme(app: App): Step {
  const at = THEME_NAMES.indexOf(themeOf(app));
  const theme = THEME_NAMES[(at + 1) % THEME_NAMES.length] ?? "dark";
  return step({ ...app, theme, message: `theme: ${theme}` }, { do: "keepTheme", theme });
}

/** The screens as they look when they open. */
export const withLook = (app: App, look: LookAtStart | undefined): App =>
  look === undefined
    ? app
    : {
        ...app,
        theme: look.theme,
        reader: look.reader,
        message: look.problem ?? app.message,
      };
