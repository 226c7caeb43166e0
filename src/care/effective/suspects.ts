import { type Estimate, estimateOf, type Series, type Sureness } from "./estimate.ts";
import { blindSpot, meanCurve, supportsOf } from "./support.ts";

/** A sieve as it is looked at: its nominal aperture, what is known of it, and Y where one is known. */
export interface Looked {
  readonly apertureUm: number;
  readonly knownUm: number;
  readonly serial?: string | undefined;
  readonly toleranceUm: number | null;
}

export interface Found {
  readonly sieve: Looked;
  /** Or why there is none. */
  readonly estimate: Estimate | string;
}

/** A sieve is suspect where its whole range lies further off than half of Y; where no Y is known, than 2 %. */
const SUSPECT_PART_OF_Y = 0.5;
const SUSPECT_SHARE = 0.02;
const MOST_ASIDE = 2;

const limitOf = ({ toleranceUm, knownUm }: Looked): number =>
  toleranceUm === null ? SUSPECT_SHARE : (SUSPECT_PART_OF_Y * toleranceUm) / knownUm;

const inLimits = ({ sieve, estimate }: Found, figure: (e: Estimate) => number): number =>
  typeof estimate === "string" ? 0 : figure(estimate) / limitOf(sieve);

/** How far the near end of the range lies from 0, in units of the limit; below 0 where the range holds 0. */
const isSure = (one: Found): boolean => inLimits(one, (e) => Math.max(e.from, -e.to)) > 1;
const sizeOf = (one: Found): number => inLimits(one, (e) => Math.abs(e.departure));

/** The sieve that departs most, as long as any is surely off: a wrong sieve's neighbours depart half as far. */
function furthestOff(found: readonly Found[], aside: ReadonlySet<number>): Found | undefined {
  const rest = found.filter((one) => !aside.has(one.sieve.knownUm));
  return rest.some(isSure) ? rest.toSorted((a, b) => sizeOf(b) - sizeOf(a))[0] : undefined;
}

const blindIn = ({ now, before }: Series, knownUm: number): string | null =>
  blindSpot(meanCurve(now), knownUm) ?? (before && blindSpot(meanCurve(before), knownUm));

/**
 * Looks at every sieve, and again with the one that departs most set aside, since a wrong sieve makes its neighbours
 * look wrong the other way; two are set aside at most. Suspect is a sieve set aside whose whole range is off, and none
 * else.
 *
 * @param sureness its confidence is that over all sieves which can be seen, together (Bonferroni)
 * @returns what was found of each sieve, in their order, and the sizes of the suspect ones
 * @source own, no source
 */
export function searched(sieves: readonly Looked[], series: Series, sureness: Sureness) {
  const blind = new Map(sieves.map(({ knownUm }) => [knownUm, blindIn(series, knownUm)]));
  const seen = [...blind.values()].filter((reason) => reason === null).length;
  const each = { ...sureness, confidence: 1 - (1 - sureness.confidence) / Math.max(1, seen) };
  const supports = supportsOf(meanCurve(series.now)).map((p) => p.apertureUm);
  const aside = new Set<number>();
  const look = (): Found[] => {
    const trusted = new Set(supports.filter((um) => !aside.has(um)));
    return sieves.map((sieve) => ({
      sieve,
      estimate: blind.get(sieve.knownUm) ?? estimateOf(series, sieve.knownUm, trusted, each),
    }));
  };
  let found = look();
  for (let next = furthestOff(found, aside); next && aside.size < MOST_ASIDE; next = furthestOff(found, aside)) {
    aside.add(next.sieve.knownUm);
    found = look();
  }
  const suspects = found.filter((one) => aside.has(one.sieve.knownUm) && isSure(one));
  return { found, suspects: new Set(suspects.map((one) => one.sieve.knownUm)) };
}
