import type { SievePassing, StackTest } from "../care/effective/tests.ts";
import type { TestRecord } from "../record/test.ts";
import { assessTest } from "./assessTest.ts";

/**
 * What each sieve of a recorded test passed, with the serial that the test tells, the pan left out.
 *
 * @param at the moment it was recorded
 * @returns null for an invalid test and for one that can't be assessed: they say nothing of a sieve
 */
export function stackTest(at: string, test: TestRecord): StackTest | null {
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
