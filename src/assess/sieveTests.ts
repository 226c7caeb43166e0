import type { SievePassing, StackTest } from "../care/effective/tests.ts";
import type { TestRecord } from "../record/test.ts";
import { assessTest } from "./assessTest.ts";

/** A recorded test as it reads today, with the moment it was recorded. */
export interface RecordedTest {
  readonly at: string;
  readonly test: TestRecord;
}

/** What tests of one product on one and the same stack say of its sieves. */
export interface SieveTests {
  readonly product: string;
  /** Oldest first. */
  readonly tests: readonly StackTest[];
}

const sievesOf = ({ weighings }: TestRecord): string =>
  weighings.map(({ apertureUm, serial = "" }) => `${apertureUm} ${serial}`).join();

/** What each sieve of a valid test passed; null for a test that says nothing. */
function stackTest({ at, test }: RecordedTest): StackTest | null {
  const assessed = assessTest(test);
  if (!assessed.ok || assessed.value.verdict.test === "invalid") return null;
  const sieves = assessed.value.fractions
    .filter(({ apertureUm }) => apertureUm > 0)
    .map(({ apertureUm, passingPct }): SievePassing => {
      const serial = test.weighings.find((w) => w.apertureUm === apertureUm)?.serial;
      return { apertureUm, passingPct, ...(serial === undefined ? {} : { serial }) };
    });
  return { at, sieves };
}

/**
 * The tests that effective apertures may be looked for in: valid ones of one product on one and the same stack, serial for
 * serial; of several such series the longest, of equally long ones the one used last.
 *
 * @param recorded tests in which the sieve stood, oldest first
 * @returns null where no test says anything
 */
export function sieveTests(recorded: readonly RecordedTest[]): SieveTests | null {
  const series = new Map<string, { readonly product: string; readonly tests: StackTest[] }>();
  for (const one of recorded) {
    const counted = stackTest(one);
    if (counted === null) continue;
    const product = one.test.product.code;
    const name = `${product} ${sievesOf(one.test)}`;
    const known = series.get(name) ?? { product, tests: [] };
    known.tests.push(counted);
    series.set(name, known);
  }
  const lastAt = ({ tests }: SieveTests) => Date.parse(tests.at(-1)?.at ?? "");
  const longest = [...series.values()].toSorted((a, b) => b.tests.length - a.tests.length || lastAt(b) - lastAt(a));
  return longest[0] ?? null;
}
