import { JUDGING_TERMS } from "./judging.ts";
import { KEEPING_TERMS } from "./keeping.ts";
import { SIEVING_TERMS } from "./sieving.ts";
import type { Term } from "./term.ts";

export type { Term } from "./term.ts";

/** The one glossary: help pages, `sievewright help TERM` and the man page draw from it. */
export const TERMS = { ...SIEVING_TERMS, ...JUDGING_TERMS, ...KEEPING_TERMS } as const;

export type TermId = keyof typeof TERMS;

export const TERM_IDS = Object.keys(TERMS) as readonly TermId[];

export const termOf = (id: TermId): Term => TERMS[id];

const inOrder = ({ name: a }: Term, { name: b }: Term): number => (a.toLowerCase() < b.toLowerCase() ? -1 : 1);

/** All of them as a reader looks for them. */
export const TERMS_BY_NAME: readonly Term[] = TERM_IDS.map(termOf).toSorted(inOrder);
