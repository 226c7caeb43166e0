import fc from "fast-check";
import { expect, test } from "vitest";
import { risingRoot } from "../../../src/grading/interpolation/risingRoot.ts";
import { expectNear } from "../near.ts";

const root = fc.double({ min: 0, max: 1, noNaN: true });

test("finds the root of a line and of a cube, whose slope at the root is 0", () => {
  fc.assert(
    fc.property(root, (r) => {
      expectNear(
        risingRoot(
          (t) => t - r,
          () => 1,
        ),
        r,
        0,
        1e-15,
      );
      expectNear(
        risingRoot(
          (t) => (t - r) ** 3,
          (t) => 3 * (t - r) ** 2,
        ),
        r,
        0,
        1e-5,
      );
    }),
  );
});

test("ends even where the slope is of no use", () => {
  for (const wrong of [0, -1, 1e-300]) {
    const found = risingRoot(
      (t) => t - 0.3,
      () => wrong,
    );
    expectNear(found, 0.3, 0, 1e-9);
  }
});

test("roots at the ends", () => {
  const at = (r: number) =>
    risingRoot(
      (t) => t - r,
      () => 1,
    );
  expectNear(at(0), 0, 0, 1e-16);
  expect(at(1)).toBe(1);
});
