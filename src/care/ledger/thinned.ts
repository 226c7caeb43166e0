import type { SieveLife, WeighedEmpty } from "../../record/careLedger.ts";
import { LEVEL_WEIGHINGS } from "../tare/cleanedLevel.ts";

/** So many weighings may be kept of one sieve, and so many of the latest are never thinned out. */
export const MOST_WEIGHINGS = 120;
const NEWEST_WHOLE = 60;
/** Thinned to this, so that it is not to be done again at the next test. */
const THINNED_TO = 90;

/** Halves at each level by the number of the entry alone, so that the sieves of one test stay together. */
const isKeptAt = (level: number, { number }: WeighedEmpty): boolean =>
  (Math.imul(number, 0x9e3779b1) >>> 0) % 2 ** level === 0;

/** The weighings that a sieve's own level is learnt from: the first since it began anew and since its first cleaning. */
function learntFrom({ begunAt, cleanedAt }: SieveLife, weighings: readonly WeighedEmpty[]): ReadonlySet<WeighedEmpty> {
  const since = (moment: string | null) => (w: WeighedEmpty) =>
    moment === null || Date.parse(w.at) > Date.parse(moment);
  const anew = weighings.filter(since(begunAt)).slice(0, LEVEL_WEIGHINGS);
  const cleaned = cleanedAt === null ? [] : weighings.filter(since(cleanedAt)).slice(0, LEVEL_WEIGHINGS);
  return new Set([...anew, ...cleaned]);
}

/**
 * The weighings of a life, few enough to be kept: the latest 60 and those that its level is learnt from whole, of the
 * older ones every second, every fourth and so on, by the number of their entry.
 *
 * @param weighings oldest first
 * @source own choice: the watch looks at the latest ones, and a chart of the whole life needs no more
 */
export function thinned(life: SieveLife, weighings: readonly WeighedEmpty[]): readonly WeighedEmpty[] {
  if (weighings.length <= MOST_WEIGHINGS) return weighings;
  const kept = learntFrom(life, weighings);
  const newest = new Set(weighings.slice(-NEWEST_WHOLE));
  for (let level = 1; level < 32; level++) {
    const left = weighings.filter((w) => kept.has(w) || newest.has(w) || isKeptAt(level, w));
    if (left.length <= THINNED_TO) return left;
  }
  return weighings.filter((w) => kept.has(w) || newest.has(w));
}
