import type { Sieve } from "../../record/sieve.ts";
import { inspect } from "../inspection/inspect.ts";
import { type CareNote, lastInspection, lastMeasured } from "../use/life.ts";

/** From when on one sieve was known to be right: its latest inspection that found it fit, else certificate or first use. */
function sieveRightSince(sieve: Sieve, care: readonly CareNote[]): string | null {
  const [last, measured] = [lastInspection(sieve.serial, care), lastMeasured(sieve.serial, care)];
  if (measured !== null && inspect(sieve, measured.inspection).result === "not fit") return null;
  if (last !== null) return inspect(sieve, last.inspection).result === "fit" ? last.at : null;
  const { certificate, firstUse } = sieve;
  if (certificate === undefined) return null;
  return firstUse !== undefined && firstUse > certificate.day ? firstUse : certificate.day;
}

/**
 * The moment (or day) from which on all sieves of a stack were known to be right: that of the latest inspected of them.
 *
 * @returns null where one was neither certified nor inspected, or failed its latest inspection
 * @source common practice, no source
 */
export function rightSince(sieves: readonly Sieve[], care: readonly CareNote[]): string | null {
  const each = sieves.map((sieve) => sieveRightSince(sieve, care));
  const known = each.filter((moment) => moment !== null);
  if (known.length < each.length) return null;
  return known.toSorted((a, b) => Date.parse(a) - Date.parse(b)).at(-1) ?? null;
}

/** Tests of one stack, as they are to be compared; oldest first. */
export interface Stretches<T> {
  readonly now: readonly T[];
  /** From when the stack was known to be right; null where too few tests tell of it, or none lies before the latest. */
  readonly before: readonly T[] | null;
}

/**
 * The latest so many tests, and as many from right after the stack was known to be right, as far as these are others:
 * with too few of either, the latest alone.
 *
 * @param tests oldest first
 * @param most how many make a stretch
 * @param fewest with fewer nothing can be said
 */
export function stretchesOf<T extends { readonly at: string }>(
  tests: readonly T[],
  since: string | null,
  { most, fewest }: { readonly most: number; readonly fewest: number },
): Stretches<T> {
  const latest = tests.slice(-most);
  const right = since === null ? [] : tests.filter(({ at }) => Date.parse(at) > Date.parse(since));
  const before = right.slice(0, most);
  const ended = before.at(-1)?.at ?? "";
  const others = latest.filter(({ at }) => Date.parse(at) > Date.parse(ended));
  const enough = before.length >= fewest && others.length >= fewest;
  return enough ? { now: others, before } : { now: latest, before: null };
}
