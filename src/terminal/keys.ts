type CharactersOf<S extends string> = S extends `${infer First}${infer Rest}` ? First | CharactersOf<Rest> : never;

type Letter = CharactersOf<"abcdefghijklmnopqrstuvwxyz">;

type FunctionKey = `f${1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10 | 11 | 12}`;

/**
 * A key that types nothing. A terminal can't tell ctrl+h, ctrl+i, ctrl+j and ctrl+m from Backspace, Tab and Enter,
 * so these four never arrive.
 */
export type NamedKey =
  | "enter"
  | "backspace"
  | "delete"
  | "up"
  | "down"
  | "left"
  | "right"
  | "home"
  | "end"
  | "page up"
  | "page down"
  | "escape"
  | "tab"
  | "shift+tab"
  | "insert"
  | FunctionKey
  | `ctrl+${Letter}`;

/**
 * One thing that the keyboard, a scanner, a balance or a paste did. Texts hold no control characters.
 *
 * `char` is one code point as typed. `entry` is a burst: its text, and whether an Enter ended it (that Enter is not
 * delivered again). Its first characters may have gone out as `char`s before it was known for a burst: `led` is those, so
 * the text of an entry goes behind what the field already holds, just as single characters would.
 */
export type Key =
  | { readonly name: "char"; readonly text: string }
  | { readonly name: "entry"; readonly text: string; readonly ended: boolean; readonly led?: string }
  | { readonly name: NamedKey };
