import canonicalize from "canonicalize";
import type { ProductContent } from "../../record/productDraft.ts";

/** One thing that differs between two revisions: the field of the product file, and what changed in words. */
export interface Change {
  readonly field: string;
  readonly words: string;
  /** Where one state of a field follows another: which field in words, and both states; `words` has them in one line. */
  readonly turn?: Turn;
}

export interface Turn {
  readonly label: string;
  readonly from: string;
  readonly to: string;
}

/** Finds what changed in one field, or in one list. */
export type Compare = (before: ProductContent, after: ProductContent) => readonly Change[];

export const ARROW = "->";

export const change = (field: string, words: string): Change => ({ field, words });

const same = (a: unknown, b: unknown): boolean => canonicalize(a) === canonicalize(b);

/**
 * Compares one field that is absent or has one meaning as a whole.
 *
 * @param label ends where the two states follow: "method: basis" gives "method: basis recovered -> charge"
 * @param unset what is said where the field is absent; a default is named, for it is what tests were judged by
 */
export const field =
  <T>(
    name: string,
    label: string,
    of: (content: ProductContent) => T | undefined,
    show: (there: T) => string = String,
    unset = "none",
  ): Compare =>
  (before, after) => {
    const [from, to] = [of(before), of(after)];
    if (same(from ?? null, to ?? null)) return [];
    const shown = (there: T | undefined) => (there === undefined ? unset : show(there));
    const turn = { label, from: shown(from), to: shown(to) };
    return [{ ...change(name, `${label} ${turn.from} ${ARROW} ${turn.to}`), turn }];
  };

/** A number with its unit; a number alone where the unit is empty. */
export const unit =
  (of: string) =>
  (number: number): string =>
    of === "" ? String(number) : `${number} ${of}`;

export const yesNo = (is: boolean): string => (is ? "yes" : "no");
