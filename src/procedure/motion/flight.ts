import { strokeMmAt } from "./acceleration.ts";

const TURN = 2 * Math.PI;
const SMALL = 0.2;

/**
 * Throw number at which a grain's first flight lasts exactly one period of the sieve: sqrt(1 + pi^2) = 3.2969.
 *
 * A grain leaves z = A sin(wt) where the sieve's downward acceleration reaches g, at phase p with sin p = 1/G. In
 * units of A and 1/w its height over the sieve after t is
 *
 *     s(t) = sin p + t cos p - t^2 / (2G) - sin(p + t).
 *
 * After one period, t = 2 pi, the sines cancel and s = 0 leaves cos p = pi / G. With sin p = 1/G follows
 * G cos p = sqrt(G^2 - 1) = pi, that is G = sqrt(1 + pi^2).
 *
 * @source derived here; the throw number A w^2 / g as in Devillard, J. Phys. I France 4 (1994) 1003
 */
export const ONE_PERIOD_THROW = Math.sqrt(1 + Math.PI ** 2);

/**
 * How long a grain that rests on the sieve flies when it first leaves, in periods of the sieve.
 *
 * With 1/G = sin p the landing condition s(t) = 0 (see `ONE_PERIOD_THROW`) divides into
 *
 *     h(t) = (t^2/2 - 1 + cos t) / (t - sin t) = sqrt(G^2 - 1).
 *
 * h rises from 0 without turning back, since h' (t - sin t)^2 = (t cos(t/2) - 2 sin(t/2))^2, so for each G there is
 * one flight, and bisection between 0 and an upper bound of it can't miss. The grain does not rebound, the bed has
 * no depth and the deck is level: what holds for a real load is found by test.
 *
 * @param throwNumber peak acceleration in g; at 1 or less the grain never leaves
 * @returns flight time over period, 0 for a grain that stays on the sieve
 * @source derived here; checked against a numeric simulation of the grain in the tests
 * @example flightPeriods(ONE_PERIOD_THROW).toFixed(6) // => "1.000000"
 */
export function flightPeriods(throwNumber: number): number {
  if (!(throwNumber > 1)) return 0;
  const wanted = Math.sqrt((throwNumber - 1) * (throwNumber + 1));
  let low = 0;
  // h(t) > t/2 - 3 for every t, so this bound lies beyond the landing.
  let high = 2 * wanted + 6;
  for (let halvings = 0; halvings < 80; halvings += 1) {
    const middle = (low + high) / 2;
    if (landing(middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2 / TURN;
}

/** h(t) of `flightPeriods`; by its series where the differences of near-equal numbers would lose all digits. */
function landing(t: number): number {
  if (t >= SMALL) return (t ** 2 / 2 - 1 + Math.cos(t)) / (t - Math.sin(t));
  const above = 1 - t ** 2 / 30 + t ** 4 / 1680 - t ** 6 / 151_200;
  const below = 1 - t ** 2 / 20 + t ** 4 / 840 - t ** 6 / 60_480;
  return (t * above) / (4 * below);
}

/**
 * The stroke (peak to peak, mm) at which a grain flies for exactly one period at this frequency.
 *
 * @source `ONE_PERIOD_THROW`
 * @example onePeriodStrokeMm(50).toFixed(3) // => "0.655"
 */
export const onePeriodStrokeMm = (frequencyHz: number): number => strokeMmAt(ONE_PERIOD_THROW, frequencyHz);
