const STEPS = 100;

/**
 * Where a rising function crosses 0 between 0 and 1: Newton's steps, halving the bracket whenever one would leave it
 * or the slope is 0, so that it ends in any case (at most 100 steps, nearly always fewer than ten).
 *
 * @param height negative or 0 at 0, positive or 0 at 1, not falling between
 * @example
 * risingRoot((t) => t - 0.25, () => 1) // => 0.25
 */
export function risingRoot(height: (t: number) => number, slope: (t: number) => number): number {
  let [low, high] = [0, 1];
  let t = 0.5;
  for (let step = 0; step < STEPS; step++) {
    const off = height(t);
    if (off < 0) low = t;
    else high = t;
    const newton = t - off / slope(t);
    if (off === 0 || newton === t) return t;
    t = newton > low && newton < high ? newton : (low + high) / 2;
  }
  return t;
}
