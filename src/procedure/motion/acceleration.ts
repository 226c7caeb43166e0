/** Standard acceleration of free fall, m/s2. */
export const STANDARD_GRAVITY = 9.80665;

const gPerMm = (frequencyHz: number): number => (2 * Math.PI * frequencyHz) ** 2 / (2000 * STANDARD_GRAVITY);

/**
 * Peak acceleration of a sieve that swings up and down, in g, from its stroke.
 *
 *     a = A w^2 / g,   A = stroke / 2,   w = 2 pi f
 *
 * Stroke is peak to peak (2A) in mm, frequency in Hz. On a level deck this is the throw number as well.
 *
 * @source kinematics of harmonic motion; g = 9.80665 m/s2 by definition
 * @example peakAccelerationG(0.655, 50).toFixed(2) // => "3.30"
 */
export const peakAccelerationG = (strokeMm: number, frequencyHz: number): number => strokeMm * gPerMm(frequencyHz);

/**
 * Stroke (peak to peak) in mm that gives a peak acceleration in g: stroke = 2 a g / w^2.
 *
 * @source as `peakAccelerationG`
 * @example strokeMmAt(3.2969, 60).toFixed(3) // => "0.455"
 */
export const strokeMmAt = (accelerationG: number, frequencyHz: number): number => accelerationG / gPerMm(frequencyHz);

/**
 * The stroke in mm at another frequency for the same peak acceleration: stroke' = stroke (f / f')^2. For a program
 * written at one mains frequency and run at another.
 *
 * @example restatedStrokeMm(0.72, 50, 60).toFixed(2) // => "0.50"
 */
export const restatedStrokeMm = (strokeMm: number, frequencyHz: number, otherHz: number): number =>
  strokeMm * (frequencyHz / otherHz) ** 2;
