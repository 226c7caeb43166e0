import { normalCdf } from "../../grading/normal.ts";
import type { LimitRange } from "./decide.ts";

/** How the true values of a process lie: normal, by mean and standard deviation. */
export interface Process {
  readonly mean: number;
  readonly sd: number;
}

export interface GlobalRisks {
  /** Chance that an item is accepted although it does not conform. */
  readonly consumer: number;
  /** Chance that an item is rejected although it conforms. */
  readonly producer: number;
  /** Chance that an item conforms. */
  readonly conforming: number;
}

const PIECES = 4000;
const REACH = 8;

/** Weights of Simpson's rule: 1 4 2 4 ... 4 1. */
const simpson = (i: number): number => (i === 0 || i === PIECES ? 1 : i % 2 === 1 ? 4 : 2);

function integral(from: number, to: number, height: (x: number) => number): number {
  if (!(to > from)) return 0;
  const step = (to - from) / PIECES;
  let sum = 0;
  for (let i = 0; i <= PIECES; i++) sum += simpson(i) * height(from + i * step);
  return (sum * step) / 3;
}

/** Chance that a measurement with standard uncertainty u of a true value `eta` falls in a range. */
function chanceMeasuredIn(eta: number, u: number, { min, max }: LimitRange): number {
  const upTo = max === null ? 1 : normalCdf((max - eta) / u);
  return upTo - (min === null ? 0 : normalCdf((min - eta) / u));
}

/**
 * Consumer's and producer's global risk of a decision rule over a whole process: true values normal, measurements
 * normal about them, accepted where the measurement falls into `acceptance`.
 *
 *     R_C = integral outside the limit of g(eta) P(accepted | eta),   R_P = integral inside of g(eta) P(rejected | eta)
 *
 * By Simpson's rule over 8 standard deviations of the process.
 *
 * @param acceptance as `decide` gives it; `u` above 0
 * @source JCGM 106:2012 clauses 9.3 and 9.4 (memory)
 */
export function globalRisks(process: Process, u: number, limit: LimitRange, acceptance: LimitRange): GlobalRisks {
  const { mean, sd } = process;
  const density = (eta: number) => Math.exp(-0.5 * ((eta - mean) / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI));
  const accepted = (eta: number) => density(eta) * chanceMeasuredIn(eta, u, acceptance);
  const rejected = (eta: number) => density(eta) * (1 - chanceMeasuredIn(eta, u, acceptance));
  const [start, end] = [mean - REACH * sd, mean + REACH * sd];
  const low = Math.min(end, Math.max(start, limit.min ?? start));
  const high = Math.min(end, Math.max(start, limit.max ?? end));
  return {
    consumer: integral(start, low, accepted) + integral(high, end, accepted),
    producer: integral(low, high, rejected),
    conforming: integral(low, high, density),
  };
}
