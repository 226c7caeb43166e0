/** Where a figure comes from, as its docstring in the code says it. */
export interface Standard {
  readonly figure: string;
  readonly source: string;
  /** The file under `src/` whose docstring names the source; a test looks it up there. Absent where the row is read from a table. */
  readonly at?: string;
  /** What that docstring says, where a reader is told it in other words. */
  readonly quotes?: string;
}

/** What is to be done with a source that nobody here has seen; the screens say it in their own language. */
export const CHECK = "check your copy";
export const RECALLED = `recalled: ${CHECK}`;

/** What the code marks as recalled is told so that whoever relies on it looks it up. */
export function sourceText({ source }: Pick<Standard, "source">): string {
  const text = source.replace(/\b(?:from )?memory\b/g, RECALLED);
  return text.includes("recalled") && !text.includes(CHECK) ? `${text}: ${CHECK}` : text;
}
