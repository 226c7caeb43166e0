import { inTime } from "../inTime.ts";
import type { CurvePoint } from "./scales.ts";

/** One sieve of one test: what it passed. The pan is not among them. */
export interface SievePassing {
  readonly apertureUm: number;
  readonly serial?: string | undefined;
  readonly passingPct: number;
}

/** A valid test of one product on one stack. */
export interface StackTest {
  readonly at: string;
  readonly sieves: readonly SievePassing[];
}

/** How the effective apertures are looked for. */
export interface EffectiveChoice {
  /** The latest so many tests are used; 40. */
  readonly tests?: number;
  /** Confidence over all sieves of the stack together; 0.95. */
  readonly confidence?: number;
  readonly resamples?: number;
  /** Tests of the same product from when the stack was known to be right: then only the change since is told. */
  readonly before?: readonly StackTest[];
  /** What is known of a sieve by its nominal aperture, e.g. its certified mean; the nominal aperture elsewhere. */
  readonly knownUm?: ReadonlyMap<number, number>;
}

/** Fewer tests say nothing. */
export const FEWEST_TESTS = 15;

/** The points of a test, finest first, each at the size that is known of its sieve. */
export function pointsOf(test: StackTest, knownUm: ReadonlyMap<number, number>): CurvePoint[] {
  return test.sieves
    .map(({ apertureUm, passingPct }) => ({ apertureUm: knownUm.get(apertureUm) ?? apertureUm, passingPct }))
    .toSorted((a, b) => a.apertureUm - b.apertureUm);
}

/** Oldest first, the latest so many. */
export const latestOf = (tests: readonly StackTest[], most: number): readonly StackTest[] => inTime(tests).slice(-most);
