import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type CusumPoint, cusumOf, USUAL_CUSUM } from "../../../src/control/memory/cusum.ts";
import { expectNear } from "../../grading/near.ts";

const process = { centre: 50, sigma: 2 };
const values = fc.array(fc.integer({ min: 40, max: 60 }), { minLength: 1, maxLength: 50 });

/** The other way to the same sums: the most that any stretch up to here lies beyond centre and slack. */
function largestStretch(some: readonly number[], end: number, excess: (value: number) => number): number {
  let [sum, most] = [0, 0];
  for (let i = end; i >= 0; i--) {
    sum += excess(some[i] ?? Number.NaN);
    most = Math.max(most, sum);
  }
  return most;
}

test("the sums are the largest of all stretches that end here", () => {
  fc.assert(
    fc.property(values, (some) => {
      for (const [i, { above, below }] of cusumOf(some, process).entries()) {
        expectNear(
          above,
          largestStretch(some, i, (value) => value - 51),
          1e-12,
          1e-12,
        );
        expectNear(
          below,
          largestStretch(some, i, (value) => 49 - value),
          1e-12,
          1e-12,
        );
      }
    }),
  );
});

test("turned about the centre the two sums change places", () => {
  fc.assert(
    fc.property(values, (some) => {
      const swapped = cusumOf(
        some.map((value) => 100 - value),
        process,
      );
      for (const [i, { above, below }] of cusumOf(some, process).entries()) {
        expect(swapped[i]?.above).toBeCloseTo(below, 9);
        expect(swapped[i]?.below).toBeCloseTo(above, 9);
      }
    }),
  );
});

test("slack and limit are in sigma: twice the scatter, twice the sums", () => {
  fc.assert(
    fc.property(values, (some) => {
      const wide = some.map((value) => 50 + 2 * (value - 50));
      const doubled = cusumOf(wide, { centre: 50, sigma: 4 });
      for (const [i, point] of cusumOf(some, process).entries()) {
        expect(doubled[i]?.above).toBeCloseTo(2 * point.above, 9);
        expect(doubled[i]?.limit).toBe(2 * point.limit);
        expect(doubled[i]?.side).toBe(point.side);
      }
    }),
  );
});

describe("a signal", () => {
  const sums = (some: readonly number[]): readonly CusumPoint[] => cusumOf(some, process);

  test("comes only strictly above the limit", () => {
    const at = sums([51, 56, 56]);
    expect(at.map(({ above }) => above)).toEqual([0, 5, 10]);
    expect(at.map(({ side }) => side)).toEqual([null, null, null]);
    expect(sums([51, 56, 56, 52]).at(-1)).toMatchObject({ above: 11, side: "above" });
  });

  test("names the value with which the sum began", () => {
    const points = sums([50, 49, 54, 54, 54, 54, 54]);
    expect(points.map(({ since }) => since)).toEqual([null, null, 2, 2, 2, 2, 2]);
    expect(points.findIndex(({ side }) => side === "above")).toBe(5);
  });

  test("forgets the beginning once the sum is back at 0", () => {
    expect(sums([53, 40, 53]).map(({ since }) => since)).toEqual([0, 1, 1]);
    expect(sums([53, 40, 60, 60]).map(({ above }) => above)).toEqual([2, 0, 9, 18]);
    expect(sums([53, 40, 60, 60]).at(-1)).toMatchObject({ since: 2, side: "above" });
  });

  test("is below for values that stay low", () => {
    expect(sums([46, 46, 46, 46]).at(-1)).toMatchObject({ above: 0, below: 12, limit: 10, side: "below", since: 0 });
  });

  test("asks for what the choice says", () => {
    const loose = cusumOf([54, 54], process, { slackSigmas: 0, limitSigmas: 3 });
    expect(loose.map(({ above, limit, side }) => [above, limit, side])).toEqual([
      [4, 6, null],
      [8, 6, "above"],
    ]);
  });
});

test("a process on its centre adds up nothing", () => {
  expect(cusumOf([50, 50.9, 49.1], process, USUAL_CUSUM)).toEqual(
    [1, 2, 3].map(() => ({ above: 0, below: 0, limit: 10, side: null, since: null })),
  );
});
