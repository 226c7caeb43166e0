import { assess } from "../assess.ts";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { netOfWeighingG } from "../grading/netMass.ts";
import { passingAt } from "../grading/passingAt.ts";
import { type ConductedTest, conductOf } from "../procedure/conductOf.ts";
import { changedSievesIn } from "../record/changedSieves.ts";
import { takenOverIn } from "../record/takenOver.ts";
import type { TestRecord } from "../record/test.ts";
import type { KnownOfTest } from "../uncertainty/conditionsOf.ts";
import type { Assessment, Circumstances, Weighed } from "./assessment.ts";
import { meansOfTest, withMeans } from "./drawnOver.ts";
import { rowName } from "./levelled.ts";

/** What of a test, in progress or recorded, bears on its assessment. */
export type Tested = ConductedTest &
  Pick<TestRecord, "weighings" | "chargeG" | "washedG" | "product" | "balance"> &
  Partial<Pick<TestRecord, "knownApertures" | "meanApertures" | "signed">>;

/** What a test weighed, as fractions; a weighing that is missing makes the test not assessable. */
export function weighedIn(test: Tested): Outcome<Weighed> {
  const missing = test.weighings.find((w) => w.emptyG === null || w.fullG === null);
  if (missing) return refused(`${rowName(missing.apertureUm)} is not weighed yet`);
  const fractions = test.weighings.map((weighing) => {
    const { apertureUm, emptyG, fullG } = weighing;
    return { apertureUm, emptyG, fullG, netG: netOfWeighingG(weighing) ?? 0 };
  });
  const { weighings, trail = [], chargeG, washedG = null, sieves } = test;
  const takenOver = takenOverIn({ weighings, trail });
  const changed = changedSievesIn({ weighings, trail, sieves });
  return accepted({ fractions, chargeG, washedG, conduct: conductOf(test), takenOver, changed });
}

/** What the check minute moved through each sieve that was weighed again. */
const movedG = ({ conduct }: Weighed): KnownOfTest["movedG"] =>
  conduct?.endPoint?.map(({ apertureUm, beforeG, afterG, passedG }) => ({
    apertureUm,
    massG: Math.max(0, passedG ?? beforeG - (afterG ?? beforeG)),
  }));

/** In how many portions the charge of a test was sieved. */
export const portionsOf = ({ weighings }: Pick<TestRecord, "weighings">): number =>
  Math.max(...weighings.map(({ earlierFullG = [] }) => 1 + earlierFullG.length));

/** What a test carries of its balance and of its sieves, for the uncertainty. */
export const knownOfTest = (test: Parameters<typeof meansOfTest>[0] & Pick<Tested, "balance" | "knownApertures">) =>
  withMeans({ balance: test.balance, knownApertures: test.knownApertures }, meansOfTest(test));

/** The balance, sieves and portions of a test, as it carries them. */
function circumstancesOf(test: Tested, weighed: Weighed, sharedEmptyUm?: readonly number[]): Circumstances {
  const { signed } = test;
  const means = meansOfTest(test);
  return {
    readabilityG: test.balance.readabilityG,
    known: { ...knownOfTest(test), portions: portionsOf(test), movedG: movedG(weighed), sharedEmptyUm },
    ...(means === null ? {} : { means }),
    withoutBudget: signed !== undefined && signed.budget === undefined,
  };
}

/** Records and drafts are never changed in place, so what one was assessed as holds as long as it exists. */
const ASSESSED = new WeakMap<Tested, Outcome<Assessment>>();

/**
 * A test, in progress or recorded, against its own copy of the product revision, with the balance and the sieves as it
 * carries them. Guarded limits of a test that was signed before uncertainty was computed are undecided as they were.
 */
export function assessTest(test: Tested): Outcome<Assessment> {
  const known = ASSESSED.get(test);
  if (known) return known;
  const found = assessed(test);
  ASSESSED.set(test, found);
  return found;
}

function assessed(test: Tested, sharedEmptyUm?: readonly number[]): Outcome<Assessment> {
  const weighed = weighedIn(test);
  if (!weighed.ok) return weighed;
  return assess(weighed.value, test.product, circumstancesOf(test, weighed.value, sharedEmptyUm));
}

/**
 * The same beside tests that share empty masses with it: what the balance does to these is left out of its budget, since it
 * does the same to all of them. No other number differs.
 *
 * @param sharedEmptyUm apertures of the rows whose empty mass is shared
 */
export const assessBeside = (test: Tested, sharedEmptyUm: readonly number[]): Outcome<Assessment> =>
  sharedEmptyUm.length === 0 ? assessTest(test) : assessed(test, sharedEmptyUm);

/** The passing curve of an assessment at any size: % passing, or null outside the sieves. */
export const curveOf =
  ({ fractions, interpolation }: Pick<Assessment, "fractions" | "interpolation">) =>
  (sizeUm: number): number | null => {
    const passing = passingAt({ rows: fractions }, sizeUm, interpolation);
    return passing.determinable ? passing.value : null;
  };
