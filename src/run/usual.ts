import { netOfWeighingG, sumG } from "../grading/netMass.ts";
import type { TestRecord } from "../record/test.ts";

/** What is usual for one sieve of one product: from the latest recorded tests on the same stack. */
export interface UsualSieve {
  readonly lowShare: number;
  readonly highShare: number;
  readonly emptyG: number;
}

/** By aperture in um (0: the pan). Empty when too few tests are known to call anything usual. */
export type Usual = ReadonlyMap<number, UsualSieve>;

export const NOTHING_USUAL: Usual = new Map();

/** Fewer tests than this say nothing about what is usual. */
const FEWEST_TESTS = 4;
/** How far beyond the range seen so far a share is still called usual, as a part of that range. */
const SLACK = 0.5;

function sharesOf(test: TestRecord): ReadonlyMap<number, { share: number; emptyG: number }> {
  const nets = test.weighings.map((w) => ({
    um: w.apertureUm,
    netG: netOfWeighingG(w) ?? 0,
    emptyG: w.emptyG ?? 0,
  }));
  const totalG = test.chargeG ?? sumG(nets.map((n) => n.netG));
  return new Map(nets.map((n) => [n.um, { share: totalG > 0 ? n.netG / totalG : 0, emptyG: n.emptyG }]));
}

function usualSieve(seen: readonly { share: number; emptyG: number }[]): UsualSieve | null {
  if (seen.length < FEWEST_TESTS) return null;
  const shares = seen.map((s) => s.share);
  const low = Math.min(...shares);
  const high = Math.max(...shares);
  const slack = SLACK * (high - low) + 0.005;
  return { lowShare: Math.max(0, low - slack), highShare: Math.min(1, high + slack), emptyG: seen[0]?.emptyG ?? 0 };
}

/**
 * What each sieve usually holds, as a share (0..1) of the charge, and its latest empty mass.
 *
 *     low .. high = range over the tests, widened by half of itself and by 0.005 each way
 *
 * @param tests the latest tests of one product on one stack, newest first; common practice, no source
 * @returns nothing for a sieve seen in fewer than four tests
 */
export function usualOf(tests: readonly TestRecord[]): Usual {
  const all = tests.map(sharesOf);
  const apertures = new Set(all.flatMap((shares) => [...shares.keys()]));
  const usual = new Map<number, UsualSieve>();
  for (const um of apertures) {
    const sieve = usualSieve(all.flatMap((shares) => shares.get(um) ?? []));
    if (sieve) usual.set(um, sieve);
  }
  return usual;
}
