import { STANDARD_GRAVITY } from "../../../src/procedure/motion/acceleration.ts";

/**
 * A grain on a sieve z = A sin(wt), followed in small steps of time: it rides on the sieve until the sieve falls away
 * faster than gravity pulls, then flies freely until it meets the sieve again. No formula of flight is used.
 *
 * @returns the time of its first flight in periods; 0 if it did not leave in two periods
 */
export function simulatedFlightPeriods(strokeMm: number, frequencyHz: number, stepsPerPeriod = 50_000): number {
  const amplitudeM = strokeMm / 2000;
  const omega = 2 * Math.PI * frequencyHz;
  const stepS = 1 / frequencyHz / stepsPerPeriod;
  const sieveM = (s: number) => amplitudeM * Math.sin(omega * s);
  const sieveSpeed = (s: number) => amplitudeM * omega * Math.cos(omega * s);
  const sieveAcceleration = (s: number) => -amplitudeM * omega ** 2 * Math.sin(omega * s);

  let step = 0;
  while (sieveAcceleration(step * stepS) >= -STANDARD_GRAVITY) {
    step += 1;
    if (step > 2 * stepsPerPeriod) return 0;
  }
  const leftS = step * stepS;
  let height = sieveM(leftS);
  let speed = sieveSpeed(leftS);
  let s = leftS;
  let gap = 0;
  for (;;) {
    height += speed * stepS - (STANDARD_GRAVITY * stepS ** 2) / 2;
    speed -= STANDARD_GRAVITY * stepS;
    s += stepS;
    const next = height - sieveM(s);
    if (next <= 0 && s - leftS > 2 * stepS) return (s - leftS - (stepS * -next) / (gap - next || 1)) * frequencyHz;
    gap = next;
  }
}
