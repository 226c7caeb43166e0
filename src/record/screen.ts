import { z } from "zod";

export const THEME_NAMES = ["dark", "light", "high contrast", "monochrome"] as const;
export type ThemeName = (typeof THEME_NAMES)[number];

export const LANGUAGES = ["en", "de", "es"] as const;
/** A language of the screens; records, files and commands speak English at every station. */
export type Language = (typeof LANGUAGES)[number];

export const DATE_ORDERS = ["year first", "day first", "month first"] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];

/** How a station's screens look until somebody at it chooses otherwise, and when they go dark. */
export const ScreenSettingSchema = z.strictObject({
  theme: z.enum(THEME_NAMES).optional(),
  /** After so long without a key nothing is shown until the next one; without it the screen stays as it is. */
  blankMinutes: z.number().positive().max(1440).optional(),
  /** Everything as sentences in reading order, for a screen reader. */
  reader: z.boolean().optional(),
  language: z.enum(LANGUAGES).optional(),
  /** 2026-11-24, 24.11.2026 or 11/24/2026 on the screens; without it as the language has it. */
  dates: z.enum(DATE_ORDERS).optional(),
});

/** `screen.json`: what was chosen at the screens by key; it goes before the station's own setting. */
export const ScreenChoiceSchema = z.strictObject({
  schema: z.literal("sievewright.screen/1"),
  theme: z.enum(THEME_NAMES).optional(),
  language: z.enum(LANGUAGES).optional(),
});

export type ScreenSetting = z.infer<typeof ScreenSettingSchema>;
export type ScreenChoice = z.infer<typeof ScreenChoiceSchema>;
