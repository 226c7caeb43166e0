import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { SizeClasses } from "../../src/grading/sizeClasses.ts";
import { sizeClasses } from "../../src/grading/sizeClasses.ts";
import { expectNear } from "./near.ts";
import { anyFractions, choices, graded, gradedOf } from "./stack.ts";

const open = graded("4000:10 1000:40 250:30 pan:20");

const classesOf = (...args: Parameters<typeof sizeClasses>): SizeClasses => {
  const found = sizeClasses(...args);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
};
const sizes = (...args: Parameters<typeof sizeClasses>) => classesOf(...args).classes.map((c) => c.sizeUm);

describe("classes reach from a sieve to the next coarser one", () => {
  test("geometric", () => {
    const expected = [4000 * Math.sqrt(1.4), 2000, 500, 125 * Math.SQRT2];
    sizes(open, choices(), "geometric").forEach((um, i) => {
      expectNear(um, expected[i] ?? Number.NaN, 1e-14);
    });
  });

  test("arithmetic", () => expect(sizes(open, choices(), "arithmetic")).toEqual([4800, 2500, 625, 187.5]));

  test("classes that hold nothing are left out and need no bounds", () => {
    const found = classesOf(graded("4000:0 2000:0 1000:40 500:60 pan:0"), choices(), "arithmetic");
    expect(found).toEqual({
      classes: [
        { sizeUm: 1500, share: 0.4 },
        { sizeUm: 750, share: 0.6 },
      ],
      assumptions: [],
    });
  });
});

describe("choices", () => {
  test("the product's class size beats the definition's and is told", () => {
    const found = classesOf(open, choices({ classMean: "arithmetic" }), "geometric");
    expect(found.classes[1]?.sizeUm).toBe(2500);
    expect(found.assumptions.at(-1)).toBe("class size: arithmetic mean");
    expect(classesOf(open, choices({ classMean: "geometric" }), "geometric").assumptions).toHaveLength(2);
  });

  test("a dropped pan leaves the other shares adding to 1", () => {
    const { classes } = classesOf(open, choices({ pan: "dropped" }), "geometric");
    expect(classes.map((c) => c.share)).toEqual([10 / 80, 40 / 80, 30 / 80]);
  });

  test("a sized pan has that size by every mean", () => {
    for (const mean of ["arithmetic", "geometric", "logarithmic"] as const) {
      expect(sizes(open, choices({ pan: { sizeUm: 44 } }), mean).at(-1)).toBe(44);
    }
  });

  test("the same grading with other choices is worked out anew", () => {
    expect(sizes(open, choices({ topUm: 8000 }), "arithmetic")[0]).toBe(6000);
    expect(sizes(open, choices(), "arithmetic")[0]).toBe(4800);
  });
});

test("all in a pan that is left out: a reason", () => {
  expect(sizeClasses(graded("500:0 pan:9"), choices({ pan: "dropped" }), "geometric")).toEqual({
    ok: false,
    reason: "everything lies in the pan, which is left out",
  });
});

test("the reason of an impossible end is passed on", () => {
  expect(sizeClasses(open, choices({ topUm: 3000 }), "geometric").ok).toBe(false);
  expect(sizeClasses(open, choices({ pan: { sizeUm: 300 } }), "geometric").ok).toBe(false);
});

test("shares add to 1 and sizes fall, whatever the masses", () => {
  fc.assert(
    fc.property(anyFractions, (fractions) => {
      const { classes } = classesOf(gradedOf(fractions), choices(), "geometric");
      expectNear(
        classes.reduce((sum, c) => sum + c.share, 0),
        1,
        1e-12,
      );
      classes.slice(1).forEach((c, i) => {
        expect(c.sizeUm).toBeLessThan(classes[i]?.sizeUm ?? 0);
      });
    }),
  );
});
