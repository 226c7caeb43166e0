/** One weighing counts for no more than this many standard deviations, so that a slip of the hand alarms nobody. */
const MOST_Z = 4;
const SLACK = 1;
const ALARM = 6;

export interface Sums {
  /** Above the alarm at the last weighing, by a rise or by a fall. */
  readonly alarm: "rise" | "fall" | null;
  /** Index of the weighing with which the sum that alarms began to grow. */
  readonly since: number;
}

/**
 * Two one-sided cumulative sums over standardised departures,
 *
 *     C+ = max(0, C+ + z - 1)    C- = max(0, C- - z - 1),    z held within +-4, alarm above 6
 *
 * in standard deviations. They stop growing at 12, so that an alarm ends soon after its cause.
 *
 * @param emptied says at which indexes the sieve was cleaned: the sum for a rise begins anew there
 * @source tabular CUSUM, NIST/SEMATECH e-Handbook 6.3.2.3; its slack, alarm and clipping are own choices, with the
 *   false-alarm rate in docs/care-simulations.md
 * @example cusum([0, 0, 5, 5, 5]) // => { alarm: "rise", since: 2 }
 */
export function cusum(z: readonly number[], emptied: ReadonlySet<number> = new Set()): Sums {
  let [rise, fall, riseSince, fallSince] = [0, 0, 0, 0];
  z.forEach((one, i) => {
    const held = Math.max(-MOST_Z, Math.min(MOST_Z, one));
    if (emptied.has(i)) rise = 0;
    if (rise === 0) riseSince = i;
    if (fall === 0) fallSince = i;
    rise = Math.min(2 * ALARM, Math.max(0, rise + held - SLACK));
    fall = Math.min(2 * ALARM, Math.max(0, fall - held - SLACK));
  });
  if (rise <= ALARM && fall <= ALARM) return { alarm: null, since: z.length };
  return rise > fall ? { alarm: "rise", since: riseSince } : { alarm: "fall", since: fallSince };
}
