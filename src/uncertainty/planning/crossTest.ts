/** Spread between laboratories in the European cross-test of three sands, and the tolerance that it can judge. */
const [SPREAD, TOLERANCE] = [0.05, 0.3];

const rootOf = (passingPct: number): number => Math.sqrt(passingPct * (100 - passingPct));

/**
 * What different laboratories agree to at X % passing, in % passing:
 *
 *     S_R < 0.05 sqrt(X (100 - X)),   a tolerance should exceed 0.30 sqrt(X (100 - X))
 *
 * Three sands, 17 laboratories in nine countries, portions of 200 g and 30 g. The tolerance is the full width between
 * lower and upper limit: six times the spread.
 *
 * @source BRE, European cross-test of sieve analysis by EN 933-1, summary page (seen)
 * @example
 * crossTestRule(50) // => ({ spreadPct: 2.5, tolerancePct: 15 })
 */
export const crossTestRule = (passingPct: number): { readonly spreadPct: number; readonly tolerancePct: number } => ({
  spreadPct: SPREAD * rootOf(passingPct),
  tolerancePct: TOLERANCE * rootOf(passingPct),
});
