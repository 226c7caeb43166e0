/** A message in another language with what was filled in; null where the catalogue lacks it. */
export interface Catalogue {
  /** What stands for an English message, `{0}`, `{1}` ... where something is filled in. */
  readonly messages: ReadonlyMap<string, string>;
  readonly translate: (message: string, given: readonly string[]) => string;
}
