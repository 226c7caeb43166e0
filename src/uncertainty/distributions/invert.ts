const HALVINGS = 400;

/**
 * Where a rising function of a number from 0 upwards reaches a wanted value, by doubling until it is passed and then
 * halving the bracket to the last digit of a double.
 *
 * @example
 * invert((x) => x * x, 0.25) // => 0.5
 */
export function invert(rising: (x: number) => number, wanted: number): number {
  let [low, high] = [0, 1];
  while (rising(high) < wanted && high < 1e300) [low, high] = [high, 2 * high];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (rising(middle) < wanted) low = middle;
    else high = middle;
  }
  return high;
}
