import type { SieveUse } from "./useOf.ts";

/** What a sieve was used for since a moment. */
export interface Counts {
  readonly tests: number;
  readonly sievedMin: number;
  readonly passedKg: number;
  /** Tests whose time on the shaker is not known; their minutes are not counted. */
  readonly untimed: number;
  /** The day counting began; null: all that is known. */
  readonly since: string | null;
}

/**
 * Counts tests, minutes and kg since a moment (that moment itself excluded).
 *
 * @param since ISO 8601; null counts all
 * @example countsSince([], null) // => { tests: 0, sievedMin: 0, passedKg: 0, untimed: 0, since: null }
 */
export function countsSince(uses: readonly SieveUse[], since: string | null): Counts {
  const counted = uses.filter((use) => since === null || Date.parse(use.at) > Date.parse(since));
  return {
    tests: counted.length,
    sievedMin: counted.reduce((sum, use) => sum + (use.sievedMin ?? 0), 0),
    passedKg: counted.reduce((sum, use) => sum + use.passedKg, 0),
    untimed: counted.filter((use) => use.sievedMin === null).length,
    since: since?.slice(0, 10) ?? null,
  };
}
