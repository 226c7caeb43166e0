import { limitName, limitsOf } from "../envelope/limit.ts";
import type { Product } from "../record/product.ts";
import type { TestRecord } from "../record/test.ts";
import type { Budget, Sureness } from "../uncertainty/budget.ts";
import { REPEATED, type Replicates, repeatablePart, replicates } from "../uncertainty/replicates/replicates.ts";
import { assessBeside } from "./assessTest.ts";
import { otherApertures } from "./drawnOver.ts";
import { sharedEmpties } from "./sharedEmpties.ts";

/** A test among those that are looked at together. */
export interface RepeatedTest extends TestRecord {
  readonly number: number;
  readonly at: string;
  readonly voided: boolean;
  readonly waived: boolean;
}

export interface LeftOut {
  readonly number: number;
  readonly reason: string;
}

/** One figure as all tests found it, or why not all did. */
export type RepeatedFigure = { readonly on: string } & (
  | {
      readonly determinable: true;
      readonly unit: string;
      /** In the order of the tests. */
      readonly values: readonly number[];
      readonly found: Replicates;
    }
  | { readonly determinable: false; readonly reason: string }
);

export interface RepeatedTests<T extends RepeatedTest = RepeatedTest> {
  readonly tests: readonly T[];
  readonly leftOut: readonly LeftOut[];
  readonly figures: readonly RepeatedFigure[];
  /** What can differ from one repeat to the next, and is or is not in the stated uncertainty. */
  readonly stated: readonly { readonly label: string; readonly included: boolean }[];
  /** Numbers of those that share empty masses taken over: what the balance did to these is not in the stated uncertainty. */
  readonly sharingEmpties: readonly number[];
}

/** Every sieve's passing %, then what else the product limits or shows, then d50. */
function figuresOf(product: Product, sievesUm: readonly number[]): string[] {
  const all = [
    ...sievesUm.map((um) => `passingPct@${um}`),
    ...limitsOf(product).map(({ on }) => limitName(on)),
    ...(product.show ?? []),
    "percentileUm@50",
  ];
  return [...new Set(all)];
}

interface Budgeted<T> {
  readonly test: T;
  readonly budget: Budget;
}

/** A test with the budget of its assessment beside tests that share empty masses with it; or why it is left out. */
function budgeted<T extends RepeatedTest>(test: T, sharedEmptyUm: readonly number[]): Budgeted<T> | LeftOut {
  const assessed = assessBeside(test, sharedEmptyUm);
  if (!assessed.ok) return { number: test.number, reason: assessed.reason };
  return { test, budget: assessed.value.howSure.budget };
}

const sureIn = ({ passing, asked }: Budget, on: string): Sureness | undefined =>
  [...asked, ...passing].find(({ name }) => name === on);

const sievesOf = ({ weighings }: TestRecord): number[] =>
  weighings
    .map(({ apertureUm }) => apertureUm)
    .filter((um) => um > 0)
    .toSorted((a, b) => b - a);

/** Why a test can't stand beside the first one; null when it can. */
function unlike(test: RepeatedTest, first: RepeatedTest): string | null {
  if (test.voided) return "it is void";
  if (test.signed.test === "invalid" && !test.waived) return "the test is invalid";
  if (test.product.code !== first.product.code) return `it is of ${test.product.code}, not of ${first.product.code}`;
  if (sievesOf(test).join() !== sievesOf(first).join()) return "it was sieved on other sieves";
  const [own, firsts] = [otherApertures(test.product), otherApertures(first.product)];
  return own === firsts
    ? null
    : `its curve is drawn over ${own ?? "nominal"} apertures, that of no. ${first.number} over ${firsts ?? "nominal"} ones`;
}

type Sure = Sureness & { readonly determinable: true };

function together(on: string, all: readonly Budgeted<RepeatedTest>[]): RepeatedFigure {
  const found = all.map(({ test, budget }) => ({ number: test.number, sure: sureIn(budget, on) }));
  const sures: Sure[] = [];
  for (const { number, sure } of found) {
    if (!sure?.determinable)
      return { on, determinable: false, reason: `no. ${number}: ${sure?.reason ?? "it is not computed"}` };
    sures.push(sure);
  }
  const u = Math.sqrt(sures.reduce((sum, sure) => sum + repeatablePart(sure) ** 2, 0) / sures.length);
  const values = sures.map(({ value }) => value);
  return { on, determinable: true, unit: sures[0]?.unit ?? "1", values, found: replicates(values, { u }) };
}

const statedIn = (budget: Budget | undefined): RepeatedTests["stated"] =>
  (budget?.components ?? [])
    .filter(({ id }) => REPEATED.includes(id))
    .map(({ label, included }) => ({ label, included }));

/**
 * Repeated tests of one sample looked at together: every figure's mean, repeatability and outliers, and whether they scatter
 * as much as their budgets state of what can differ between repeats (root of the mean square over the tests); an empty mass
 * that several of them share since it was taken over can't. Tests of
 * another product, on other sieves, void or invalid are left out, with the reason.
 *
 * @param given in the order in which they are to be shown; the first that is neither void nor invalid sets product and sieves
 * @returns the figures of those that are left; of a single test no more than its values
 * @source ISO 5725-2 (memory), see `replicates`
 */
export function repeatedTests<T extends RepeatedTest>(given: readonly T[]): RepeatedTests<T> {
  const first = given.find((test) => unlike(test, test) === null);
  const refused = given.flatMap((test) => {
    const reason = unlike(test, first ?? test);
    return reason === null ? [] : [{ number: test.number, reason }];
  });
  const alike = given.filter(({ number }) => !refused.some((one) => one.number === number));
  const shared = sharedEmpties(alike);
  const each = alike.map((test) => budgeted(test, shared.get(test.number) ?? []));
  const used = each.flatMap((one) => ("test" in one ? [one] : []));
  const asked = used[0] ? figuresOf(used[0].test.product, sievesOf(used[0].test)) : [];
  return {
    tests: used.map(({ test }) => test),
    leftOut: [...refused, ...each.flatMap((one) => ("test" in one ? [] : [one]))],
    figures: asked.map((on) => together(on, used)),
    stated: statedIn(used[0]?.budget),
    sharingEmpties: used.map(({ test }) => test.number).filter((number) => shared.has(number)),
  };
}
