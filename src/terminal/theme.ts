import type { TextProps } from "ink";

/** What a stretch of text means. The words and signs in it say the same without colour. */
export type Role =
  | "plain"
  | "strong"
  | "dim"
  | "field"
  | "pass"
  | "fail"
  | "borderline"
  | "invalid"
  | "warning"
  | "key"
  | "title";

type Look = Pick<TextProps, "color" | "bold" | "dimColor" | "inverse">;

/** Only the sixteen colours every terminal has, and its own palette, so that an operator's contrast settings hold. */
export const THEME: Readonly<Record<Role, Look>> = {
  plain: {},
  strong: { bold: true },
  dim: { dimColor: true },
  field: { inverse: true },
  pass: { color: "green", bold: true },
  fail: { color: "red", bold: true },
  borderline: { color: "yellow", bold: true },
  invalid: { color: "magenta", bold: true },
  warning: { color: "yellow" },
  key: { color: "cyan", bold: true },
  title: { bold: true },
};
