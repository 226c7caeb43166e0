/** A seeded source of chance that the caller brings: numbers spread evenly from 0 up to, not including, 1. */
export type Random = () => number;

/** Standard draws from one source of chance; each has mean square 1 but for the gamma. */
export interface Chance {
  readonly even: Random;
  readonly normal: () => number;
  /** Gamma distribution of this shape and scale 1: mean and variance are both the shape. */
  readonly gamma: (shape: number) => number;
}

/** Standard normal draws in pairs by Marsaglia's polar method. */
function normals(even: Random): () => number {
  let spare = 0;
  let hasSpare = false;
  return () => {
    if (hasSpare) {
      hasSpare = false;
      return spare;
    }
    for (;;) {
      const a = 2 * even() - 1;
      const b = 2 * even() - 1;
      const square = a * a + b * b;
      if (square >= 1 || square === 0) continue;
      const stretch = Math.sqrt((-2 * Math.log(square)) / square);
      spare = b * stretch;
      hasSpare = true;
      return a * stretch;
    }
  };
}

/** A gamma draw of a large shape k from a normal draw z: `k (1 - 1/(9 k) + z / (3 sqrt k))^3`. */
function cube(shape: number, z: number): number {
  const root = 1 - 1 / (9 * shape) + z / (3 * Math.sqrt(shape));
  return shape * root * root * root;
}

/** One try of Marsaglia and Tsang for a shape of at least 1; negative if it is to be tried again. */
function gammaTry(d: number, c: number, normal: () => number, even: Random): number {
  const x = normal();
  const root = 1 + c * x;
  if (root <= 0) return -1;
  const [v, square, u] = [root * root * root, x * x, even()];
  if (u < 1 - 0.0331 * square * square) return d * v;
  return Math.log(u) < 0.5 * square + d * (1 - v + Math.log(v)) ? d * v : -1;
}

/** Above this shape the cube of a normal draw is a gamma draw as near as matters: quantiles are off by 1e-5 at most. */
const CUBE_FROM = 100;

/**
 * Normal and gamma draws made of even ones.
 *
 * @source G. Marsaglia and T. A. Bray, SIAM Review 6 (1964) 260-264; G. Marsaglia and W. W. Tsang, ACM Trans. Math.
 *   Softw. 26 (2000) 363-372; E. B. Wilson and M. M. Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684-688 (memory)
 */
export function chanceOf(even: Random): Chance {
  const normal = normals(even);
  const gamma = (shape: number): number => {
    if (shape > CUBE_FROM) return cube(shape, normal());
    if (shape < 1) return gamma(shape + 1) * (1 - even()) ** (1 / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const drawn = gammaTry(d, c, normal, even);
      if (drawn >= 0) return drawn;
    }
  };
  return { even, normal, gamma };
}
