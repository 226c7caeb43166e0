import { expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import type { SieveFitness } from "../../src/record/sieve.ts";
import { FILTER_SAND, Hands } from "../run/hands.ts";

/** A whole test with one sieve in this state, for a product that does or does not insist on fit sieves. */
function judged(state: SieveFitness, required?: boolean) {
  const { draft } = new Hands().tests().run;
  const procedure = required === undefined ? {} : { procedure: { ruleSet: "own" as const, sieves: { required } } };
  const assessed = assessTest({
    ...draft,
    product: { ...FILTER_SAND, method: { ...FILTER_SAND.method, ...procedure } },
    sieves: FILTER_SAND.stackUm.map((apertureUm) => ({
      serial: `S-${apertureUm}`,
      apertureUm,
      state: apertureUm === 710 ? state : "fit",
      text: "inspection was due on 3 Nov",
    })),
  });
  if (!assessed.ok) throw new Error(assessed.reason);
  const { verdict, notices } = assessed.value;
  return { test: verdict.test, notices: notices.filter(({ id }) => id.startsWith("sieve-")) };
}

test("whether an overdue sieve invalidates is the product's choice; it is told in any case", () => {
  expect(judged("overdue")).toMatchObject({ test: "valid", notices: [{ id: "sieve-overdue" }] });
  expect(judged("overdue", false).test).toBe("valid");
  expect(judged("overdue", true)).toMatchObject({ test: "invalid", notices: [{ id: "sieve-overdue" }] });
});

test("one that is due or fit invalidates nothing, one out of service always", () => {
  for (const required of [undefined, true]) {
    expect(judged("fit", required)).toEqual({ test: "valid", notices: [] });
    expect(judged("due", required).test).toBe("valid");
    expect(judged("out of service", required).test).toBe("invalid");
  }
});
