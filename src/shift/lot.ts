import { judgeLimit, type LimitSure, productVerdict } from "../envelope/judge.ts";
import { type JudgedLimit, limitsOf } from "../envelope/limit.ts";
import { determined, undetermined } from "../record/determination.ts";
import type { Product } from "../record/product.ts";
import type { ProductVerdict } from "../record/test.ts";
import { countsForLot, type LotTest } from "./lotTest.ts";
import { retestWarnings } from "./retest.ts";
import { figureWords } from "./trendFigure.ts";

/** What all tests of a lot say together. None of them is ever left out of view. */
export interface LotStanding {
  readonly verdict: ProductVerdict | "no valid test";
  /** In the operator's words, which tests decide and how. */
  readonly why: string;
  /** Numbers of the tests that count. */
  readonly counted: readonly number[];
  /** The limits judged on the average, where the product decides by it. */
  readonly average: readonly JudgedLimit[] | null;
  /** What the product's method does not allow, yet was done. */
  readonly warnings: readonly string[];
}

/** The average of one limited figure over all counted tests; not determinable when one of them lacks it. */
function meanOf(tests: readonly LotTest[], on: string) {
  const found = tests.map((test) => test.limits.find((limit) => limit.on === on)?.value ?? null);
  const figures = found.filter((value) => value !== null);
  if (figures.length < found.length) return undetermined(`one of the ${found.length} tests has no figure for it`);
  return determined(figures.reduce((sum, value) => sum + value, 0) / figures.length, figureWords(on).unit);
}

/**
 * How sure an average is: the mean of the standard uncertainties, as if all errors were common to the tests. Sieves and
 * balance are, grains are not; this is the most it can be.
 */
function meanSure(tests: readonly LotTest[], on: string): LimitSure {
  const each = tests.flatMap(({ limits }) => limits.find((limit) => limit.on === on)?.guarded?.u ?? []);
  if (each.length < tests.length) return { determinable: false, reason: "one of the tests was judged without it" };
  return { determinable: true, u: each.reduce((sum, u) => sum + u, 0) / each.length };
}

function averaged(tests: readonly LotTest[], product: Product): readonly JudgedLimit[] {
  const decision = product.decision ?? { rule: "simple" as const };
  return limitsOf(product).map((limit) => {
    const { on } = judgeLimit(limit, undetermined(""), decision);
    return judgeLimit(limit, meanOf(tests, on), decision, () => meanSure(tests, on));
  });
}

const numbers = (tests: readonly LotTest[]): string => tests.map(({ number }) => `no. ${number}`).join(", ");

/**
 * What a lot's tests say together. A test that is invalid (and not waived) or voided proves nothing and doesn't count, yet
 * stays in view. Where the product's method decides by the average, every limit is judged on the mean of all counted tests.
 * Otherwise a fail stands whatever later tests say: a lot is never tested until it passes; who may close the hold decides.
 *
 * @param tests all recorded tests of the lot, in the order of the log
 * @param product the revision of the latest test
 * @source common practice, no source: averaging only where the specification defines the result as an average
 */
export function lotStanding(tests: readonly LotTest[], product: Product): LotStanding {
  const counted = tests.filter(countsForLot);
  const retest = product.method?.retest;
  const moved = tests.filter(({ movedTo }) => movedTo !== undefined);
  const warnings = [
    ...moved.map(({ number, movedTo }) => `no. ${number} bore this lot and was corrected to lot ${movedTo}`),
    ...retestWarnings(counted, retest),
  ];
  const told = { counted: counted.map(({ number }) => number), average: null, warnings };
  if (counted.length === 0) return { verdict: "no valid test", why: "no test of this lot proves anything", ...told };
  if (retest?.average === true && counted.length > 1) {
    const average = averaged(counted, product);
    return { ...told, verdict: productVerdict(average, "valid"), why: `average of ${numbers(counted)}`, average };
  }
  const worst = (["fail", "not judged", "borderline", "pass"] as const).find((verdict) =>
    counted.some((test) => test.product === verdict),
  );
  const deciding = counted.filter((test) => test.product === worst);
  const later = worst === "fail" && counted.some(({ product: verdict }) => verdict === "pass");
  const why = later ? `${numbers(deciding)} failed; a later pass does not take that away` : `by ${numbers(deciding)}`;
  return { ...told, verdict: worst ?? "not judged", why };
}

/**
 * What stands against the release of a lot, in words; null where its tests pass. It is told to whoever closes a hold with
 * "release", and recorded with it: the decision stays theirs.
 *
 * @param standing what the tests of the lot say together; null: there is none
 * @source common practice, no source
 */
export function againstRelease(lot: string, standing: Pick<LotStanding, "verdict" | "why"> | null): string | null {
  if (standing === null || standing.verdict === "no valid test") return "there is no valid test of this lot";
  const { verdict, why } = standing;
  if (verdict === "pass") return null;
  const by = why.startsWith("by ") ? why.slice("by ".length) : null;
  switch (verdict) {
    case "fail":
      return by === null ? `lot ${lot} FAILED: ${why}` : `lot ${lot} FAILED by ${by}`;
    case "borderline":
      return by === null ? `lot ${lot} is BORDERLINE: ${why}` : `lot ${lot} is BORDERLINE by ${by}`;
    case "not judged":
      return by === null ? `lot ${lot} was NOT JUDGED: ${why}` : `lot ${lot} was NOT JUDGED by ${by}`;
  }
}
