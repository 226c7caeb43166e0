import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import type { Fit } from "../../record/product.ts";
import type { Grading } from "../grading.ts";
import { standsAtUm } from "../standsAt.ts";

/** One sieve as a fit sees it. */
export interface FitPoint {
  readonly lnSizeUm: number;
  readonly passingPct: number;
}

/** A point that is a sieve of the stack. */
export interface SievePoint extends FitPoint {
  readonly apertureUm: number;
}

/** A curve of two parameters goes through any two points; only the third says anything about the model. */
export const FEWEST_POINTS = 3;

/** Far below any balance: a smaller rise over all points is rounding. */
const FLAT_PCT = 1e-6;

/** What adding up percentages in double precision may leave of a 0, or take off a 100. */
const ROUNDING_PCT = 1e-9;

const between = (lowPct: number, highPct: number) => (pct: number) => pct > lowPct && pct < highPct;

const TAKES: Readonly<Record<Fit, { readonly takes: (passingPct: number) => boolean; readonly words: string }>> = {
  "least-squares": {
    takes: between(ROUNDING_PCT, 100 - ROUNDING_PCT),
    words: "more than 0 and less than 100 % passing",
  },
  line: { takes: between(5 - ROUNDING_PCT, 95 + ROUNDING_PCT), words: "5 to 95 % passing" },
};

/** The sieves of the stack, finest first, as points of the passing curve, where they stand; the pan has no size and is none. */
export const sievePoints = (grading: Grading): readonly SievePoint[] =>
  grading.rows
    .filter((row) => row.apertureUm > 0)
    .map((row) => ({ apertureUm: standsAtUm(row), lnSizeUm: Math.log(standsAtUm(row)), passingPct: row.passingPct }))
    .sort((a, b) => a.apertureUm - b.apertureUm);

const tooFew = (count: number, words: string): string =>
  `${count === 0 ? "no sieve has" : count === 1 ? "only 1 sieve has" : `only ${count} sieves have`} ${words}; a fit needs ${FEWEST_POINTS}`;

/**
 * The points that a fit rule takes (CP-11), finest first: those strictly between 0 and 100 % passing for
 * `least-squares`, those from 5 to 95 % (both included) for `line`. Refused with a reason if fewer than three are
 * left or if the same % passes all of them, since a flat curve has no spread.
 */
export function pointsFor<Point extends FitPoint>(rule: Fit, points: readonly Point[]): Outcome<readonly Point[]> {
  const { takes, words } = TAKES[rule];
  const taken = points.filter((point) => takes(point.passingPct));
  if (taken.length < FEWEST_POINTS) return refused(tooFew(taken.length, words));
  const passing = taken.map((point) => point.passingPct);
  return Math.max(...passing) - Math.min(...passing) < FLAT_PCT
    ? refused(`the same share passes all ${taken.length} sieves; a flat curve has no spread`)
    : accepted(taken);
}
