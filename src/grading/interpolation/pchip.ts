interface Gaps {
  /** Width of each gap between points. */
  readonly h: readonly number[];
  /** Rise per width in each gap. */
  readonly delta: readonly number[];
}

function gapsOf(x: readonly number[], y: readonly number[]): Gaps {
  const h = x.slice(1).map((right, k) => right - (x[k] ?? 0));
  return { h, delta: h.map((width, k) => ((y[k + 1] ?? 0) - (y[k] ?? 0)) / width) };
}

/** Weighted harmonic mean of the rises on both sides of point `k`; 0 at a turn or beside a plateau. */
function innerSlope({ h, delta }: Gaps, k: number): number {
  const [left = 0, right = 0] = [delta[k - 1], delta[k]];
  const [hLeft = 0, hRight = 0] = [h[k - 1], h[k]];
  if (left * right <= 0) return 0;
  const w1 = 2 * hRight + hLeft;
  const w2 = hRight + 2 * hLeft;
  return (w1 + w2) / (w1 / left + w2 / right);
}

/** Three-point slope at an end, held back where it would leave the shape of the points. */
function endSlope(h0: number, h1: number, delta0: number, delta1: number): number {
  const slope = ((2 * h0 + h1) * delta0 - h0 * delta1) / (h0 + h1);
  if (Math.sign(slope) !== Math.sign(delta0)) return 0;
  const turns = Math.sign(delta0) !== Math.sign(delta1);
  return turns && Math.abs(slope) > 3 * Math.abs(delta0) ? 3 * delta0 : slope;
}

/**
 * Slopes of the monotone piecewise cubic through points (x, y), in units of y per x; with straight slope for two
 * points and 0 for one. The curve rises wherever the points rise and is flat where they are flat.
 *
 * @param x strictly rising
 * @source F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300-304; ends as in scipy's
 *   PchipInterpolator
 * @example
 * pchipSlopes([0, 1, 2], [0, 1, 1]) // => [1.5, 0, 0]
 */
export function pchipSlopes(x: readonly number[], y: readonly number[]): number[] {
  const { h, delta } = gapsOf(x, y);
  const last = h.length - 1;
  if (last < 1) return x.map(() => delta[0] ?? 0);
  const [h0 = 0, h1 = 0, hBefore = 0, hLast = 0] = [h[0], h[1], h[last - 1], h[last]];
  const [d0 = 0, d1 = 0, dBefore = 0, dLast = 0] = [delta[0], delta[1], delta[last - 1], delta[last]];
  return x.map((_, k) => {
    if (k === 0) return endSlope(h0, h1, d0, d1);
    return k === x.length - 1 ? endSlope(hLast, hBefore, dLast, dBefore) : innerSlope({ h, delta }, k);
  });
}
