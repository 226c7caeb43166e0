import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Product } from "../record/product.ts";
import type { TestRecord } from "../record/test.ts";
import type { KnownOfTest } from "../uncertainty/conditionsOf.ts";
import type { Graded } from "../uncertainty/graded.ts";
import { assessTest, knownOfTest, portionsOf, type Tested } from "./assessTest.ts";
import { otherApertures } from "./drawnOver.ts";
import { type AssessedMasses, gradedAgain } from "./gradedAgain.ts";

/** A typical test of a product: its curve and charge, and what is known of how it is weighed. */
export interface TypicalTest {
  readonly graded: Graded;
  readonly known: KnownOfTest;
  /** In how many portions the charge is sieved; null where nothing is said of it. */
  readonly portions: number | null;
}

const mean = (numbers: readonly number[]): number => numbers.reduce((sum, x) => sum + x, 0) / numbers.length;

/** The mean of masses that every test has; null if one lacks it. */
function meanKnown(masses: readonly (number | null)[]): number | null {
  const known = masses.filter((mass): mass is number => mass !== null);
  return known.length === masses.length ? mean(known) : null;
}

/** The sieves by their apertures, and by their mean ones where curves are drawn over these. */
const sievesOf = ({ fractions }: AssessedMasses): string =>
  fractions.map(({ apertureUm, meanUm }) => (meanUm === undefined ? apertureUm : `${apertureUm}/${meanUm}`)).join(" ");

function meanOf(all: readonly AssessedMasses[], first: AssessedMasses): AssessedMasses {
  const fractions = first.fractions.map(({ apertureUm, meanUm }, row) => ({
    apertureUm,
    ...(meanUm === undefined ? {} : { meanUm }),
    emptyG: null,
    fullG: null,
    netG: mean(all.map((one) => one.fractions[row]?.netG ?? 0)),
  }));
  const [chargeG, washedG] = [meanKnown(all.map((one) => one.chargeG)), meanKnown(all.map((one) => one.washedG))];
  return { fractions, chargeG, washedG };
}

/** One test by itself, in progress or recorded, as a typical one. */
export function typicalOfTest(test: Tested): Outcome<TypicalTest> {
  const assessed = assessTest(test);
  return assessed.ok ? typicalOfMasses([assessed.value], test.product, test) : assessed;
}

/**
 * The mean of several tests of a product: mean net mass on each sieve, mean charge. Tests on other sieves than the first
 * (over mean apertures: of other mean apertures) are left out; balance and certificates are those of the first.
 *
 * @param tests newest first, at least one
 * @returns the typical test with the tests that went into it, or why there is none
 * @source common practice, no source
 */
export function typicalOf<T extends TestRecord>(
  tests: readonly T[],
  product: Product,
): Outcome<TypicalTest & { readonly of: readonly T[] }> {
  const assessed = tests.flatMap((test) => {
    const found = assessTest(test);
    return found.ok ? [{ test, masses: found.value }] : [];
  });
  const [newest] = assessed;
  if (!newest) return refused("none of its tests can be assessed");
  const alike = assessed.filter(({ masses }) => sievesOf(masses) === sievesOf(newest.masses));
  const found = typicalOfMasses(
    alike.map(({ masses }) => masses),
    product,
    newest.test,
  );
  return found.ok ? accepted({ ...found.value, of: alike.map(({ test }) => test) }) : found;
}

/** Masses without mean apertures where these are of another choice than the product's by now. */
function asChosen(
  all: readonly AssessedMasses[],
  product: Product | null,
  test: Tested | null,
): readonly AssessedMasses[] {
  if (test === null || otherApertures(test.product) === otherApertures(product)) return all;
  return all.map((masses) => ({
    ...masses,
    fractions: masses.fractions.map(({ meanUm: _mean, ...fraction }) => fraction),
  }));
}

/**
 * The mean of masses on the same sieves, graded as the product has it today, whatever the test drew its curve over; of one
 * test of which the balance may be known.
 */
export function typicalOfMasses(
  masses: readonly AssessedMasses[],
  product: Product | null,
  test: Tested | null,
): Outcome<TypicalTest> {
  const all = asChosen(masses, product, test);
  const [first] = all;
  if (!first) return refused("there is no test to plan from");
  const panAssumed = first.panAssumed ?? false;
  const graded = gradedAgain({ ...(all.length === 1 ? first : meanOf(all, first)), panAssumed }, product);
  if (!graded.ok) return graded;
  const known: KnownOfTest = test === null ? {} : knownOfTest(product === null ? test : { ...test, product });
  return accepted({ graded: graded.value, known, portions: test === null ? null : portionsOf(test) });
}
