import { type ChangedSieve, changedWords } from "../record/changedSieves.ts";
import type { Notice } from "./assessment.ts";

/** Sieves that weighed something else when they were weighed full: what came off or on counts as fraction. */
export const changedNotices = (changed: readonly ChangedSieve[] = []): Notice[] =>
  changed.map((one) => ({ id: "sieve-changed", severity: "warning", text: changedWords(one) }));
