import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { andersonDarling, normalityOf, normalShareBeyond } from "../../../src/control/capability/normality.ts";
import { expectNear } from "../../grading/near.ts";
import { normalRuns } from "../../grading/normalScatter.ts";
import reference from "../../published/reference/fixtures/control.json" with { type: "json" };

test.each(reference.normality)("A squared of the set $name as scipy has it", ({ values, statistic }) => {
  expectNear(andersonDarling(values), statistic, 1e-10);
});

/** R. B. D'Agostino in D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), table 4.7 (memory). */
const CRITICAL = [
  { share: 0.1, statistic: 0.631 },
  { share: 0.05, statistic: 0.752 },
  { share: 0.025, statistic: 0.873 },
  { share: 0.01, statistic: 1.035 },
];

test.each(CRITICAL)("beyond the critical value $statistic lies a share of $share", ({ share, statistic }) => {
  expectNear(normalShareBeyond(statistic), share, 0.02);
});

test("the share falls as the statistic grows, from 1 to 0, across the pieces of its curve", () => {
  const at = Array.from({ length: 300 }, (_, i) => normalShareBeyond(0.12 + i / 100));
  for (const [i, share] of at.slice(1).entries()) expect(share).toBeLessThan((at[i] ?? Number.NaN) + 0.004);
  expect(at[0]).toBeGreaterThan(0.98);
  expect(at.at(-1)).toBeLessThan(1e-6);
  expect(normalShareBeyond(50)).toBe(0);
});

describe.each([10, 25, 100])("of sets of %d normal values", (n) => {
  const found = normalRuns(3000, n, 40 + n).map(normalityOf);
  const shareOf = (where: (p: number) => boolean) =>
    found.filter((one) => one.determinable && where(one.p)).length / found.length;

  test("about 5 % are called not normal", () => {
    const rejected = found.filter((one) => one.determinable && !one.normal).length / found.length;
    expectNear(rejected, 0.05, 0, 0.016);
  });

  test("p is spread evenly", () => {
    expectNear(
      shareOf((p) => p < 0.1),
      0.1,
      0,
      0.025,
    );
    expectNear(
      shareOf((p) => p < 0.5),
      0.5,
      0,
      0.05,
    );
  });
});

test("sets that are far from normal are called so, a normal one is not", () => {
  const said = Object.fromEntries(
    reference.normality.map(({ name, values }) => {
      const found = normalityOf(values);
      return [name, found.determinable && found.normal];
    }),
  );
  expect(said).toEqual({ normal: true, eight: true, exponential: false, uniform: false, "far tails": false });
});

test("place and scale of the values change nothing", () => {
  const some = reference.normality[0]?.values ?? [];
  fc.assert(
    fc.property(fc.integer({ min: -900, max: 900 }), fc.integer({ min: 1, max: 90 }), (by, times) => {
      const moved = andersonDarling(some.map((value) => times * value + by));
      expectNear(moved, andersonDarling(some), 1e-8);
    }),
  );
});

test("one value far out is finite and not normal", () => {
  const found = normalityOf([...Array.from({ length: 400 }, (_, i) => i % 2), 1e9]);
  expect(found).toMatchObject({ determinable: true, normal: false, p: 0 });
  if (found.determinable) expect(Number.isFinite(found.statistic)).toBe(true);
});

describe("nothing is said", () => {
  test("of seven values", () => {
    expect(normalityOf([1, 2, 3, 4, 5, 6, 7])).toEqual({
      determinable: false,
      reason: "whether values are normal needs 8 of them",
    });
  });

  test("of values that are all alike", () => {
    const alike = Array.from({ length: 20 }, () => 5);
    expect(normalityOf(alike)).toEqual({ determinable: false, reason: "all values are alike" });
  });
});
