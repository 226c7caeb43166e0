import { effectiveFromTests } from "../../../src/care/effective/effectiveFromTests.ts";
import type { EffectiveChoice } from "../../../src/care/effective/tests.ts";
import { describeAperture } from "../../../src/series/describe.ts";
import { type Chance, chanceFrom } from "./chance.ts";
import type { Material } from "./materials.ts";
import { routineTests } from "./sieving.ts";

/** How the sieves are known: by their nominal apertures, by certificates, or by tests from when they were right. */
export const KNOWN_BY = ["nominal", "certificate", "tests before"] as const;
export type KnownBy = (typeof KNOWN_BY)[number];

export interface Planted {
  readonly material: Material;
  readonly knownBy: KnownBy;
  /** Error of one sieve's mean aperture, as a part of it. */
  readonly error: number;
  /** Which sieve: any with neighbours that can be seen, or the coarsest that tells anything. */
  readonly where: "inside" | "end";
}

export interface Outcome {
  /** Looks in which the planted sieve was suspected; of no sieve planted, none. */
  readonly detected: number;
  /** Looks in which any other sieve was suspected. */
  readonly others: number;
  /** Mean of (estimate - truth), in % of the aperture, over the planted sieve; over all sieves where none was; NaN where none was told. */
  readonly biasPct: number;
  /** Share of the ranges that hold the truth. */
  readonly covered: number;
  readonly looks: number;
}

const TESTS = 40;
/** Sieves of a good maker scatter within Y; a quarter of it as standard deviation. */
const NATURAL_PART_OF_Y = 0.25;
/** A certificate's own standard uncertainty. */
const CERTIFICATE = 0.003;

function naturalStack(stackUm: readonly number[], chance: Chance): number[] {
  return stackUm.map((um) => {
    const yUm = describeAperture(um).meanToleranceUm ?? 0;
    const off = Math.max(-yUm, Math.min(yUm, chance.normal(0, NATURAL_PART_OF_Y * yUm)));
    return um + off;
  });
}

/** The indexes of the sieves that pass from 3 to 97 % of the material, by a dry run. */
function telling(material: Material): number[] {
  const [test] = routineTests(material, material.stackUm, 1, chanceFrom(1));
  return (test?.sieves ?? []).flatMap(({ passingPct }, i) => (passingPct > 3 && passingPct < 97 ? [i] : []));
}

function choiceOf(knownBy: KnownBy, material: Material, rightUm: readonly number[], chance: Chance): EffectiveChoice {
  if (knownBy === "nominal") return {};
  if (knownBy === "tests before") return { before: routineTests(material, rightUm, TESTS, chance) };
  const known = material.stackUm.map(
    (um, i) => [um, (rightUm[i] ?? um) * (1 + chance.normal(0, CERTIFICATE))] as const,
  );
  return { knownUm: new Map(known) };
}

export interface Look {
  readonly detected: boolean;
  readonly others: boolean;
  readonly offs: readonly number[];
  readonly covered: readonly boolean[];
}

/** One stack bought, its tests, and what is said of it. */
function lookOnce({ material, knownBy, error, where }: Planted, chance: Chance): Look {
  const inner = telling(material);
  const spot = where === "end" ? 0 : 1 + Math.floor(chance.even() * (inner.length - 2));
  const planted = error === 0 ? -1 : (inner[spot] ?? -1);
  const rightUm = naturalStack(material.stackUm, chance);
  const trueUm = rightUm.map((um, i) => (i === planted ? um * (1 + error) : um));
  const choice = choiceOf(knownBy, material, rightUm, chance);
  const found = effectiveFromTests(routineTests(material, trueUm, TESTS, chance), choice, chance.even);
  const rows = found.sieves.flatMap((sieve, i) => {
    const { effectiveUm, fromUm, toUm } = sieve;
    if (!effectiveUm.determinable || (planted >= 0 && i !== planted)) return [];
    const base =
      knownBy === "tests before" ? (sieve.apertureUm * (trueUm[i] ?? 1)) / (rightUm[i] ?? 1) : (trueUm[i] ?? 1);
    const held = base >= (fromUm ?? 0) && base <= (toUm ?? 0);
    return [{ off: (100 * (effectiveUm.value - base)) / base, held }];
  });
  return {
    detected: planted >= 0 && (found.sieves[planted]?.suspect ?? false),
    others: found.sieves.some((sieve, i) => sieve.suspect && i !== planted),
    offs: rows.map((row) => row.off),
    covered: rows.map((row) => row.held),
  };
}

const share = (flags: readonly boolean[]) => flags.filter(Boolean).length / Math.max(1, flags.length);

/** So many stacks, each looked at once after 40 tests. */
export function effectiveRuns(planted: Planted, looks: number, seed: number): Outcome {
  const chance = chanceFrom(seed);
  const all = Array.from({ length: looks }, () => lookOnce(planted, chance));
  const offs = all.flatMap((look) => look.offs);
  return {
    detected: share(all.map((look) => look.detected)),
    others: share(all.map((look) => look.others)),
    biasPct: offs.reduce((a, b) => a + b, 0) / offs.length,
    covered: share(all.flatMap((look) => look.covered)),
    looks,
  };
}
