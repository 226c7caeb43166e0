/** A message of the code, a name that may be shown, or a mistake: a phrase that nothing says, or one said too early. */
export interface WordInCode {
  readonly kind: "message" | "name" | "unsaid" | "too early";
  readonly file: string;
  readonly line: number;
  readonly message: string;
}
export function wordsInCode(folder?: string): readonly WordInCode[];
export function catalogueOf(file: string): string;
export function filesIn(folder: string): readonly string[];
