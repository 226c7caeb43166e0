/** What came of reading something that a person or a file handed in: the value, or the reason why not. */
export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly reason: string };

export const accepted = <T>(value: T): Outcome<T> => ({ ok: true, value });
export const refused = (reason: string): Outcome<never> => ({ ok: false, reason });
