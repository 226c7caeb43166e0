import { netOfWeighingG, sumG } from "../../grading/netMass.ts";
import type { Shaking, TestRecord } from "../../record/test.ts";

/** What one test did to one sieve. */
export interface SieveUse {
  readonly at: string;
  /** How long it was sieved on; null where the shaker was not timed. */
  readonly sievedMin: number | null;
  /** What fell through it, in kg. */
  readonly passedKg: number;
}

const MS_PER_MIN = 60_000;

/** A check minute is one more minute on the shaker. */
const CHECK_MIN = 1;

const minutesOf = ({ startedAt, endedAt }: Pick<Shaking, "startedAt" | "endedAt">): number | null =>
  startedAt === null || endedAt === null ? null : (Date.parse(endedAt) - Date.parse(startedAt)) / MS_PER_MIN;

type UsedIn = Pick<TestRecord, "finishedAt" | "weighings" | "shaking" | "earlierShaking" | "checkMinute">;

function sievedMin({ shaking, earlierShaking = [], checkMinute }: UsedIn): number | null {
  const times = [...earlierShaking, shaking].map(minutesOf);
  const known = times.filter((time) => time !== null);
  if (known.length < times.length) return null;
  return known.reduce((sum, time) => sum + time, checkMinute ? CHECK_MIN : 0);
}

/**
 * What a recorded test did to the sieve of this serial: its end, the minutes on the shaker (portions and check minute
 * included) and the mass that fell through, which is all that lies on finer sieves and in the pan.
 *
 * @returns null where that sieve was not in the stack
 * @source common practice, no source
 */
export function useOf(test: UsedIn, serial: string): SieveUse | null {
  const own = test.weighings.find((w) => w.serial === serial);
  if (own === undefined) return null;
  const finer = test.weighings.filter((w) => w.apertureUm < own.apertureUm);
  const passedG = sumG(finer.map((w) => Math.max(0, netOfWeighingG(w) ?? 0)));
  return { at: test.finishedAt, sievedMin: sievedMin(test), passedKg: passedG / 1000 };
}
