import { expect } from "vitest";

/** Asserts |ours - expected| <= relative * |expected| + absolute, and says both numbers if not. */
export function expectNear(ours: number, expected: number, relative: number, absolute = 0): void {
  const allowed = relative * Math.abs(expected) + absolute;
  if (!(Math.abs(ours - expected) <= allowed)) expect.fail(`${ours} is not within ${allowed} of ${expected}`);
}
