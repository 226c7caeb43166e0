import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { type Product, RETEST_WAYS, type RetestWay } from "../record/product.ts";
import { countsForLot, type LotTest } from "./lotTest.ts";

type Rule = NonNullable<NonNullable<Product["method"]>["retest"]>;

const isOut = ({ product }: LotTest): boolean => product === "fail" || product === "borderline";

/**
 * The retests among the tests of a lot that count: those that were set out as such, and whatever else was tested after a
 * result out of limits. The first test is none, nor is a further one of a lot that meets its limits, nor one that stands in
 * for an invalid test.
 *
 * @source common practice, no source: a retest is a test made because of a result, not one that the sampling plan asks for
 */
export function retestsAmong(counted: readonly LotTest[]): readonly LotTest[] {
  const firstOut = counted.findIndex(isOut);
  return counted.filter(({ retest }, i) => i > 0 && (retest !== undefined || (firstOut >= 0 && i > firstOut)));
}

const unnamedWords = (count: number): string =>
  count === 1
    ? "1 retest, though the product's method names none"
    : `${count} retests, though the product's method names none`;

const tooManyWords = (count: number, atMost: number): string =>
  count === 1
    ? `1 retest, the product's method allows ${atMost}`
    : `${count} retests, the product's method allows ${atMost}`;

/** What of a lot's retests the product's method does not allow, and which of them don't say how they came about. */
export function retestWarnings(counted: readonly LotTest[], rule: Rule | undefined): readonly string[] {
  const retests = retestsAmong(counted);
  if (retests.length === 0) return [];
  const untold = retests.filter(({ retest }) => retest === undefined);
  const unnamed = retests.filter(({ retest }) => rule && retest && !rule.ways.includes(retest.way));
  const { atMost } = rule ?? {};
  return [
    ...(rule === undefined ? [unnamedWords(retests.length)] : []),
    ...(atMost !== undefined && retests.length > atMost ? [tooManyWords(retests.length, atMost)] : []),
    ...unnamed.map(
      ({ number, retest }) => `no. ${number} is a ${retest?.way}, which the product's method does not name`,
    ),
    ...(untold.length === 0
      ? []
      : [`not told whether second portion or resample: ${untold.map(({ number }) => `no. ${number}`).join(", ")}`]),
  ];
}

function usedUp(method: string, atMost: number, made: number): string {
  if (made === 1 && atMost === 1) return `${method} allows 1 retest and there is 1`;
  return atMost === 1
    ? `${method} allows 1 retest and there are ${made}`
    : `${method} allows ${atMost} retests and there are ${made}`;
}

/**
 * The ways in which a lot may be tested once more. While none of its tests proves anything it may be repeated in any way that
 * the method names, else in any; after that as the product's method allows, never until it passes.
 *
 * @param tests all recorded tests of the lot
 * @param product the revision that the retest will be judged against
 * @param inWork retests of the lot that are set out and not recorded yet
 * @returns the ways, or why there is none
 */
export function retestWays(
  tests: readonly LotTest[],
  product: Pick<Product, "code" | "revision" | "method">,
  inWork: number,
): Outcome<readonly RetestWay[]> {
  const rule = product.method?.retest;
  const counted = tests.filter(countsForLot);
  if (tests.length === 0) return refused("no test of this lot is on record that could be repeated");
  if (counted.length === 0) return accepted(rule?.ways ?? RETEST_WAYS);
  const method = `the method of ${product.code} rev ${product.revision}`;
  if (rule === undefined)
    return refused(`${method} names no retest: what is on record decides, and quality closes the hold`);
  const made = retestsAmong(counted).length + inWork;
  if (rule.atMost !== undefined && made >= rule.atMost) return refused(usedUp(method, rule.atMost, made));
  return accepted(rule.ways);
}
