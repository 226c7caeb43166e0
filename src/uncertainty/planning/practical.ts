/**
 * A charge as one would weigh it: rounded up by at most 5 %, to two digits, below 2 (20, 200 ...) to a half step of them.
 *
 * @param chargeG above 0, in g; 0 stays 0
 * @source common practice, no source
 * @example
 * practicalG(613.2) // => 620
 * practicalG(1012) // => 1050
 */
export function practicalG(chargeG: number): number {
  if (!(chargeG > 0)) return 0;
  const decade = 10 ** Math.floor(Math.log10(chargeG));
  const step = decade * (chargeG < 2 * decade ? 0.05 : 0.1);
  return Number((Math.ceil(chargeG / step - 1e-9) * step).toPrecision(3));
}
