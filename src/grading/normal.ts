import { erfc } from "./errorFunction.ts";
import { type Rational, rationalAt } from "./rational.ts";

/**
 * Standard normal distribution function: the share below `z`.
 *
 *     Phi(z) = erfc(-z / sqrt 2) / 2
 *
 * Dimensionless. The lower tail keeps its relative precision (1e-13 or better) down to 1e-300, since erfc is computed
 * directly. Beyond -38 the share is 0, beyond 8.3 it is 1, as near as a double can say.
 *
 * @source erfc after W. J. Cody, Math. Comp. 23 (1969) 631-637
 * @example
 * normalCdf(0) // => 0.5
 */
export const normalCdf = (z: number): number => erfc(-z * Math.SQRT1_2) / 2;

const NEAR: Rational = {
  over: [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
    33430.57558358813, 2509.0809287301227,
  ],
  under: [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
    28729.085735721943, 5226.495278852546,
  ],
};
const MIDDLE: Rational = {
  over: [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
    0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  under: [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
    0.0005475938084995345, 1.0507500716444169e-9,
  ],
};
const FAR: Rational = {
  over: [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
    0.0012426609473880784, 0.000027115555687434876, 2.0103343992922881e-7,
  ],
  under: [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 0.000018463183175100548,
    1.421511758316446e-7, 2.0442631033899397e-15,
  ],
};

const tailQuantile = (tail: number): number => {
  const r = Math.sqrt(-Math.log(tail));
  return r <= 5 ? rationalAt(MIDDLE, r - 1.6) : rationalAt(FAR, r - 5);
};

/**
 * Standard normal quantile: the z below which the share `p` lies. Relative precision about 1e-16.
 *
 * @param p a share, strictly between 0 and 1; anything else is a fault of the caller and throws
 * @source M. J. Wichura, Algorithm AS 241 (PPND16), Appl. Statist. 37 (1988) 477-484
 * @example
 * normalQuantile(0.5) // => 0
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`normalQuantile needs a share between 0 and 1, not ${p}`);
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) return q * rationalAt(NEAR, 0.180625 - q * q);
  return q < 0 ? -tailQuantile(p) : tailQuantile(1 - p);
}
