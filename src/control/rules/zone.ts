export type Side = "above" | "below" | "rising" | "falling" | "either";

/** What the arithmetic of sigma units may add or take away without meaning anything. */
const NOISE = 1e-9;

/** Sees a pattern that ends at place i of values in sigma from the centre line, and where it lies; null: not there. */
export type Pattern = (sigmas: readonly number[], i: number) => Side | null;

/** The side on which a value lies more than `far` sigma from the centre; a value on the line is on neither. */
function sideOf(sigmas: number | undefined, far: number): "above" | "below" | null {
  if (sigmas === undefined || Math.abs(sigmas) <= far + NOISE) return null;
  return sigmas > 0 ? "above" : "below";
}

/** The values at the last places up to i; fewer at the start. */
const lastUpTo = (sigmas: readonly number[], i: number, count: number): readonly number[] =>
  sigmas.slice(Math.max(0, i - count + 1), i + 1);

/**
 * At least `count` of the last `of` values strictly beyond `far` sigma on one side, the newest among them.
 *
 * @source Western Electric, Statistical Quality Control Handbook (1956) (memory)
 */
export const beyond =
  (count: number, of: number, far: number): Pattern =>
  (sigmas, i) => {
    const side = sideOf(sigmas[i], far);
    if (side === null) return null;
    return lastUpTo(sigmas, i, of).filter((value) => sideOf(value, far) === side).length >= count ? side : null;
  };

/** The last `count` values within `far` sigma, on both sides taken together; a value on the line is not within. */
export const within =
  (count: number, far: number): Pattern =>
  (sigmas, i) => {
    const last = lastUpTo(sigmas, i, count);
    return last.length === count && last.every((value) => Math.abs(value) < far - NOISE) ? "either" : null;
  };

/** The last `count` values strictly beyond `far` sigma, some above and some below. */
export const shunning =
  (count: number, far: number): Pattern =>
  (sigmas, i) => {
    const sides = lastUpTo(sigmas, i, count).map((value) => sideOf(value, far));
    const both = sides.includes("above") && sides.includes("below");
    return sides.length === count && both && !sides.includes(null) ? "either" : null;
  };

const stepsUpTo = (sigmas: readonly number[], i: number, points: number): readonly number[] => {
  const last = lastUpTo(sigmas, i, points);
  return last.slice(1).map((value, k) => value - (last[k] ?? value));
};

/** The last `points` values, each above the one before, or each below it; equal ones break the run. */
export const steady =
  (points: number): Pattern =>
  (sigmas, i) => {
    const steps = stepsUpTo(sigmas, i, points);
    if (steps.length < points - 1) return null;
    if (steps.every((step) => step > NOISE)) return "rising";
    return steps.every((step) => step < -NOISE) ? "falling" : null;
  };

/** The last `points` values going up and down in turn; equal ones break the run. */
export const alternating =
  (points: number): Pattern =>
  (sigmas, i) => {
    const steps = stepsUpTo(sigmas, i, points);
    const turns = steps.every((step, k) => Math.abs(step) > NOISE && (k === 0 || step * (steps[k - 1] ?? 0) < 0));
    return steps.length === points - 1 && turns ? "either" : null;
  };
