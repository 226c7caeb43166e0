import { expect, test } from "vitest";
import { phiOf } from "../../src/grading/phi.ts";

test.each([
  [2000, -1],
  [1000, 0],
  [500, 1],
  [125, 3],
  [62.5, 4],
])("%d um is phi %d", (sizeUm, phi) => expect(phiOf(sizeUm)).toBeCloseTo(phi, 14));
