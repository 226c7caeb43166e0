import { z } from "zod";

export const THEME_NAMES = ["dark", "light", "high contrast", "monochrome"] as const;
export type ThemeName = (typeof THEME_NAMES)[number];

/** How a station's screens look until somebody at it chooses otherwise, and when they go dark. */
export const ScreenSettingSchema = z.strictObject({
  theme: z.enum(THEME_NAMES).optional(),
  /** After so long without a key nothing is shown until the next one; without it the screen stays as it is. */
  blankMinutes: z.number().positive().max(1440).optional(),
  /** Everything as sentences in reading order, for a screen reader. */
  reader: z.boolean().optional(),
});

/** `screen.json`: what was chosen at the screens by key; it goes before the station's own setting. */
export const ScreenChoiceSchema = z.strictObject({
  schema: z.literal("sievewright.screen/1"),
  theme: z.enum(THEME_NAMES).optional(),
});

export type ScreenSetting = z.infer<typeof ScreenSettingSchema>;
export type ScreenChoice = z.infer<typeof ScreenChoiceSchema>;
