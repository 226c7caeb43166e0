import { type Rational, rationalAt } from "./rational.ts";

const NEAR: Rational = {
  over: [3209.3775891384694, 377.485237685302, 113.86415415105016, 3.1611237438705655, 0.18577770618460315],
  under: [2844.236833439171, 1282.6165260773723, 244.02463793444417, 23.601290952344122, 1],
};
const MIDDLE: Rational = {
  over: [
    1230.3393547979972, 2051.0783778260716, 1712.0476126340707, 881.952221241769, 298.6351381974001, 66.11919063714163,
    8.883149794388377, 0.5641884969886701, 2.1531153547440383e-8,
  ],
  under: [
    1230.3393548037495, 3439.3676741437216, 4362.619090143247, 3290.7992357334597, 1621.3895745666903,
    537.1811018620099, 117.6939508913125, 15.744926110709835, 1,
  ],
};
const FAR: Rational = {
  over: [
    0.0006587491615298378, 0.016083785148742275, 0.12578172611122926, 0.36034489994980445, 0.30532663496123236,
    0.016315387137302097,
  ],
  under: [0.0023352049762686918, 0.06051834131244132, 0.5279051029514285, 1.8729528499234604, 2.568520192289822, 1],
};
const ONE_OVER_ROOT_PI = 0.5641895835477563;

/** exp(-y^2) with y^2 split in an exact and a small part, so that a large y loses no digits. */
const expMinusSquare = (y: number): number => {
  const head = Math.trunc(y * 16) / 16;
  return Math.exp(-head * head) * Math.exp(-(y - head) * (y + head));
};

const farFactor = (y: number): number => {
  const z = 1 / (y * y);
  return (ONE_OVER_ROOT_PI - z * rationalAt(FAR, z)) / y;
};

/**
 * Complementary error function, `erfc(x) = 2/sqrt(pi) * integral of exp(-t^2) from x to infinity`; dimensionless,
 * 0 to 2. Relative precision near that of a double where the result is not below 1e-308; 0 beyond that.
 *
 * @source W. J. Cody, Rational Chebyshev approximations for the error function, Math. Comp. 23 (1969) 631-637
 * @example
 * erfc(0) // => 1
 */
export function erfc(x: number): number {
  const y = Math.abs(x);
  if (y <= 0.46875) return 1 - x * rationalAt(NEAR, y * y);
  if (y > 27) return x > 0 ? 0 : 2;
  const upper = expMinusSquare(y) * (y <= 4 ? rationalAt(MIDDLE, y) : farFactor(y));
  return x > 0 ? upper : 2 - upper;
}
