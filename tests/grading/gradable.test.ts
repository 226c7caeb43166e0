import fc from "fast-check";
import { expect, test } from "vitest";
import { gradingFault } from "../../src/grading/gradable.ts";
import { grade } from "../../src/grading/grade.ts";
import type { GradingMasses } from "../../src/grading/grading.ts";
import { anyFractions, fraction, fractionsOf } from "./stack.ts";

const recovered: GradingMasses = { basis: "recovered", chargeG: null, washedG: null };

test("nothing speaks against a weighed stack", () => {
  expect(gradingFault(fractionsOf("1000:5 500:3 pan:1"), recovered)).toBeNull();
  expect(gradingFault(fractionsOf("1000:5 500:3 pan:1"), { basis: "charge", chargeG: 9.1, washedG: 9 })).toBeNull();
});

test("the rows are looked at first, then what they hold, then the masses beside them", () => {
  const nothing = { basis: "charge", chargeG: null, washedG: -1 } as const;
  expect(gradingFault(fractionsOf("1000:0 1000:0 pan:0"), nothing)).toMatch(/there twice/);
  expect(gradingFault(fractionsOf("1000:0 500:0 pan:0"), nothing)).toMatch(/all masses are zero/);
  expect(gradingFault(fractionsOf("1000:1 500:0 pan:0"), nothing)).toMatch(/need the charge/);
  expect(gradingFault(fractionsOf("1000:1 500:0 pan:0"), { ...nothing, chargeG: 1 })).toMatch(/after washing/);
});

test("grade refuses exactly what is at fault, with that reason", () => {
  const anyMasses: fc.Arbitrary<GradingMasses> = fc.record({
    basis: fc.constantFrom("recovered", "charge"),
    chargeG: fc.constantFrom(null, 0, -1, 100, 1e6, Number.NaN, Number.POSITIVE_INFINITY),
    washedG: fc.constantFrom(null, 0, 99, 1e7, Number.NaN),
  });
  const anyRows = anyFractions.chain((fractions) =>
    fc.constantFrom(
      fractions,
      fractions.slice(0, -1),
      [...fractions, fraction(0, 1)],
      [...fractions, fraction(-1, 1)],
      [...fractions, fraction(7, Number.NaN)],
      [...fractions, fraction(7.77, -1)],
    ),
  );
  fc.assert(
    fc.property(anyRows, anyMasses, (rows, masses) => {
      const fault = gradingFault(rows, masses);
      const outcome = grade(rows, masses);
      expect(outcome.ok ? null : outcome.reason).toBe(fault);
      if (outcome.ok) expect(JSON.stringify(outcome.value)).not.toMatch(/NaN|Infinity|"netG":null/);
    }),
  );
});
