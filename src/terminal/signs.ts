/** The signs that stand beside words, each one column wide, so that nothing is told by colour alone. */
export const SIGNS = {
  pass: "✓",
  fail: "✗",
  borderline: "~",
  invalid: "!",
  here: "▸",
  rule: "─",
  upright: "│",
  ellipsis: "…",
  none: "–",
} as const;

export type Sign = keyof typeof SIGNS;

type Environment = Readonly<Record<string, string | undefined>>;

/**
 * Whether the terminal draws more than ASCII: the locale's character set is UTF-8 (LC_ALL, LC_CTYPE, LANG, the first
 * that is set) and it is not the Linux kernel's own console, whose font has a few hundred glyphs. On Windows the console
 * takes Unicode. SIEVEWRIGHT_ASCII=1 says no, =0 says yes, whatever the rest.
 */
export function hasUnicode(env: Environment, platform: NodeJS.Platform): boolean {
  if (env.SIEVEWRIGHT_ASCII) return env.SIEVEWRIGHT_ASCII === "0";
  if (platform === "win32") return true;
  if (env.TERM === "linux") return false;
  return /utf-?8/i.test(env.LC_ALL || env.LC_CTYPE || env.LANG || "");
}
