/** The terms of the finite sum, `1 + c_1 q + c_2 q^2 + ...`, each `q (m)/(m + 1)` of the one before. */
function finiteSum(square: number, first: number, last: number): number {
  let term = 1;
  let sum = 1;
  for (let m = first; m <= last; m += 2) {
    term *= (square * m) / (m + 1);
    sum += term;
  }
  return sum;
}

/**
 * Student's t distribution function: the share below `t`, exact by the finite sums for whole degrees of freedom.
 *
 * @param degrees a whole number of at least 1; anything else is a fault of the caller and throws
 * @source Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4 (memory)
 * @example studentCdf(0, 5) // => 0.5
 */
export function studentCdf(t: number, degrees: number): number {
  if (!(Number.isInteger(degrees) && degrees >= 1)) throw new RangeError(`no degrees of freedom: ${degrees}`);
  const angle = Math.atan(t / Math.sqrt(degrees));
  const [sine, cosine] = [Math.sin(angle), Math.cos(angle)];
  if (degrees === 1) return 0.5 + angle / Math.PI;
  if (degrees % 2 === 0) return 0.5 + (sine * finiteSum(cosine ** 2, 1, degrees - 3)) / 2;
  return 0.5 + (angle + sine * cosine * finiteSum(cosine ** 2, 2, degrees - 3)) / Math.PI;
}

const HALVINGS = 200;

/**
 * Student's t quantile: the t below which the share `p` lies, by halving a bracket.
 *
 * @param p strictly between 0 and 1, not nearer to either than 1e-12; anything else throws
 * @source inverts studentCdf
 * @example Math.round(1000 * studentQuantile(0.975, 9)) / 1000 // => 2.262
 */
export function studentQuantile(p: number, degrees: number): number {
  if (!(p >= 1e-12 && p <= 1 - 1e-12)) throw new RangeError(`studentQuantile needs a share inside 0 to 1, not ${p}`);
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentQuantile(1 - p, degrees);
  let [low, high] = [0, 1];
  while (studentCdf(high, degrees) < p) [low, high] = [high, 2 * high];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (studentCdf(middle, degrees) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
