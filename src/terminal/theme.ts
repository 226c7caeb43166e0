import type { ThemeName } from "../record/screen.ts";
import { type Colour, type Depth, sgrOf } from "./colour.ts";

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
  | "title"
  | `stack${1 | 2 | 3 | 4}`;

/** How a role looks: colours of its own or those of the theme, and what even a terminal without colours can do. */
export interface Look {
  readonly text?: Colour;
  readonly ground?: Colour;
  readonly bold?: true;
  readonly underline?: true;
  /** Text and ground change places. */
  readonly swapped?: true;
}

export interface Theme {
  readonly text: Colour | null;
  readonly ground: Colour | null;
  readonly looks: Readonly<Record<Role, Look>>;
}

const colour = (rgb: `#${string}`, ansi: number): Colour => ({ rgb, ansi });
const BLACK = colour("#000000", 0);

/** The four states, dim words and keys; what these look like differs from theme to theme. */
interface Palette {
  readonly pass: Colour;
  readonly fail: Colour;
  readonly borderline: Look;
  readonly invalid: Colour;
  readonly key: Colour;
  readonly dim: Look;
}

/** Marks of stacks: black on four grounds, which stand for nothing but the letter on them. */
const STACKS = {
  stack1: { text: BLACK, ground: colour("#7fc8ff", 14), bold: true },
  stack2: { text: BLACK, ground: colour("#ffd24d", 11), bold: true },
  stack3: { text: BLACK, ground: colour("#f2a6d8", 13), bold: true },
  stack4: { text: BLACK, ground: colour("#f2f2f2", 15), bold: true },
} as const;

const looksOf = ({ pass, fail, borderline, invalid, key, dim }: Palette): Theme["looks"] => ({
  plain: {},
  strong: { bold: true },
  dim,
  field: { swapped: true },
  pass: { text: pass, bold: true },
  fail: { text: fail, bold: true },
  borderline: { ...borderline, bold: true },
  invalid: { text: invalid, bold: true },
  warning: borderline,
  key: { text: key, bold: true },
  title: { bold: true },
  ...STACKS,
});

/**
 * The themes. The states keep apart for every kind of colour vision, and each text stands off its ground; a test holds both
 * against the published formulas. Monochrome has no colours at all and leaves the terminal its own.
 */
export const THEMES: Readonly<Record<ThemeName, Theme>> = {
  dark: {
    text: colour("#e8e8e4", 15),
    ground: colour("#101418", 0),
    looks: looksOf({
      pass: colour("#83ddc9", 14),
      fail: colour("#e0652e", 9),
      borderline: { text: colour("#fff334", 11) },
      invalid: colour("#d062f2", 13),
      key: colour("#9cc4ff", 14),
      dim: { text: colour("#9aa4ad", 7) },
    }),
  },
  light: {
    text: BLACK,
    ground: colour("#fbfaf5", 15),
    looks: looksOf({
      pass: colour("#005f87", 4),
      fail: colour("#af0000", 1),
      borderline: { text: BLACK, ground: colour("#ffd75f", 11) },
      invalid: colour("#8700d7", 5),
      key: colour("#0b4fa8", 4),
      dim: { text: colour("#5c6166", 0) },
    }),
  },
  "high contrast": {
    text: colour("#ffffff", 15),
    ground: BLACK,
    looks: looksOf({
      pass: colour("#0bcea7", 14),
      fail: colour("#f86f30", 9),
      borderline: { text: colour("#fdf695", 11) },
      invalid: colour("#cf86ee", 13),
      key: colour("#ffffff", 15),
      dim: {},
    }),
  },
  monochrome: {
    text: null,
    ground: null,
    looks: {
      plain: {},
      strong: { bold: true },
      dim: {},
      field: { swapped: true },
      pass: { bold: true },
      fail: { bold: true, swapped: true },
      borderline: { bold: true, underline: true },
      invalid: { bold: true, swapped: true },
      warning: { underline: true },
      key: { bold: true },
      title: { bold: true },
      stack1: { bold: true, swapped: true },
      stack2: { bold: true, swapped: true },
      stack3: { bold: true, swapped: true },
      stack4: { bold: true, swapped: true },
    },
  },
};

/** A role's text and ground as they come to stand: its own, else the theme's. */
export function coloursOf(theme: Theme, role: Role): { readonly text: Colour | null; readonly ground: Colour | null } {
  const look = theme.looks[role];
  const [text, ground] = [look.text ?? theme.text, look.ground ?? theme.ground];
  return look.swapped && text && ground ? { text: ground, ground: text } : { text, ground };
}

function startOf(theme: Theme, role: Role, depth: Depth): string {
  const look = theme.looks[role];
  const { text, ground } = coloursOf(theme, role);
  const parts = [
    look.bold ? "1" : "",
    look.underline ? "4" : "",
    look.swapped && !(text && ground) ? "7" : "",
    text && text !== theme.text ? sgrOf(text, depth, false) : "",
    ground && ground !== theme.ground ? sgrOf(ground, depth, true) : "",
  ].filter((part) => part !== "");
  return parts.length === 0 ? "" : `\x1b[${parts.join(";")}m`;
}

/** What opens each role on a terminal, and the text and ground of the theme, which the painter lays under every row. */
export interface Styles {
  readonly opens: Readonly<Record<Role, string>>;
  readonly ground: string;
}

const made = new Map<string, Styles>();

/** The styles of a theme at a colour depth; without colours every theme is the monochrome one. */
export function stylesOf(name: ThemeName, depth: Depth): Styles {
  const known = made.get(`${name} ${depth}`);
  if (known) return known;
  const theme = THEMES[depth === "none" ? "monochrome" : name];
  const roles = Object.keys(theme.looks) as Role[];
  const opens = Object.fromEntries(roles.map((role) => [role, startOf(theme, role, depth)]));
  const styles = {
    opens: opens as Record<Role, string>,
    ground:
      theme.text && theme.ground ? `\x1b[${sgrOf(theme.text, depth, false)};${sgrOf(theme.ground, depth, true)}m` : "",
  };
  made.set(`${name} ${depth}`, styles);
  return styles;
}

const CLOSE = "\x1b[0m";

/** A row of texts in their roles, as a terminal draws it. */
export function styledRow(row: readonly { readonly text: string; readonly role: Role }[], { opens }: Styles): string {
  return row
    .map(({ text, role }) => (opens[role] === "" || text === "" ? text : `${opens[role]}${text}${CLOSE}`))
    .join("");
}
