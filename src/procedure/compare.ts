/** What arithmetic on decimal masses may add or take away without meaning anything. */
const NOISE = 1e-9;
const noiseAt = (limit: number): number => NOISE * Math.max(1, Math.abs(limit));

/**
 * Is a figure above its limit? A limit is inclusive, and the last bits of binary arithmetic decide nothing.
 *
 * @example isAbove(0.1 + 0.2, 0.3) // => false
 */
export const isAbove = (figure: number, limit: number): boolean => figure - limit > noiseAt(limit);

/** Is a figure below its limit, by more than arithmetic can add or take away? */
export const isBelow = (figure: number, limit: number): boolean => limit - figure > noiseAt(limit);
