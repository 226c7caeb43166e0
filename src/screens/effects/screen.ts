import type { ThemeName } from "../../record/screen.ts";
import { keepScreenChoice } from "../../store/screenFile.ts";
import type { Desk } from "./desk.ts";

/** Remembers the theme for the next start; where nothing may be written it holds for this time only. */
export async function keepTheme(desk: Desk, theme: ThemeName): Promise<void> {
  if (desk.store.readOnly !== null) return;
  const kept = await keepScreenChoice(desk.store.folder, { theme });
  if (!kept.ok) desk.show({ ...desk.app(), message: kept.reason });
}
