/** A word of the trade as it is used here. */
export interface Term {
  readonly name: string;
  /** One or two sentences; whole, so that they can be translated. */
  readonly meaning: string;
  /** Other spellings and words under which people look for it. */
  readonly also?: readonly string[];
}
