/** What came of a search: the thing found, or the reason why not. Shaped as an entry's outcome. */
export type Lookup<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly reason: string };

export const found = <T>(value: T): Lookup<T> => ({ ok: true, value });
export const notFound = (reason: string): Lookup<never> => ({ ok: false, reason });
