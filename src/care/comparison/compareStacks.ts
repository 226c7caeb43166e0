import { roundHalfAway } from "../../grading/rounding.ts";
import { type Determination, undetermined } from "../../record/determination.ts";
import { apertureText } from "../../series/apertureText.ts";
import { deviationOf, meanOf } from "../robust.ts";
import { studentCdf, studentQuantile } from "../studentT.ts";
import { standing } from "./holm.ts";
import { pairsToSee, smallestSeen } from "./smallestSeen.ts";

/** What one run passed at each aperture. */
export type RunPassing = readonly { readonly apertureUm: number; readonly passingPct: number }[];

/** One portion run on both stacks, or the halves of a split sample run on one each. */
export interface PairedRuns {
  readonly working: RunPassing;
  readonly master: RunPassing;
}

/** The paired differences (working less master) at one aperture, in % passing. */
export interface ApertureCompared {
  readonly apertureUm: number;
  readonly pairs: number;
  readonly meanPct: number;
  readonly deviationPct: number | null;
  /** The range of the mean difference that holds for all apertures together. */
  readonly fromPct: number | null;
  readonly toPct: number | null;
  /** Two-sided, of this aperture alone. */
  readonly p: number | null;
  /** A bias that stands when all apertures are judged together. */
  readonly biased: boolean;
  /** What so many pairs would show nine times in ten. */
  readonly smallestSeenPct: Determination;
  /** How many pairs would show the difference asked about. */
  readonly pairsToSee: Determination;
  /** No bias stands, and too few pairs to have seen the difference asked about nine times in ten. */
  readonly tooFew: boolean;
  readonly text: string;
}

export interface StacksCompared {
  /** Coarsest first; only apertures that both stacks have. */
  readonly apertures: readonly ApertureCompared[];
  readonly biased: boolean;
  /** No bias stands, and at one aperture at least too few pairs to tell: nothing is shown either way. */
  readonly tooFew: boolean;
  readonly notes: readonly string[];
}

export interface ComparisonChoice {
  /** Chance of calling any aperture biased where none is; 0.05. */
  readonly alpha?: number;
  /** A difference of interest, in % passing; 1. */
  readonly differencePct?: number;
}

function differencesOf(pairs: readonly PairedRuns[]): Map<number, number[]> {
  const byAperture = new Map<number, number[]>();
  for (const { working, master } of pairs)
    for (const { apertureUm, passingPct } of working) {
      const other = master.find((m) => m.apertureUm === apertureUm);
      if (other === undefined) continue;
      byAperture.set(apertureUm, [...(byAperture.get(apertureUm) ?? []), passingPct - other.passingPct]);
    }
  return byAperture;
}

/** Two-sided p of a mean difference; 0 where all differences are the same and not 0, 1 where all are 0. */
function pOf(meanPct: number, errorPct: number, pairs: number): number {
  if (errorPct === 0) return meanPct === 0 ? 1 : 0;
  return 2 * (1 - studentCdf(Math.abs(meanPct) / errorPct, pairs - 1));
}

type Figures = Omit<ApertureCompared, "biased" | "tooFew" | "text">;

function figuresOf(apertureUm: number, differences: readonly number[], alphaEach: number, wanted: number): Figures {
  const pairs = differences.length;
  const meanPct = meanOf(differences);
  const one = { apertureUm, pairs, meanPct };
  const few = undetermined("one pair shows no scatter: two are needed at least");
  if (pairs < 2)
    return { ...one, deviationPct: null, fromPct: null, toPct: null, p: null, smallestSeenPct: few, pairsToSee: few };
  const deviationPct = deviationOf(differences);
  const errorPct = deviationPct / Math.sqrt(pairs);
  const half = studentQuantile(1 - alphaEach / 2, pairs - 1) * errorPct;
  return {
    ...one,
    deviationPct,
    fromPct: meanPct - half,
    toPct: meanPct + half,
    p: pOf(meanPct, errorPct, pairs),
    smallestSeenPct: smallestSeen(deviationPct, pairs, { alpha: alphaEach }),
    pairsToSee: pairsToSee(wanted, deviationPct, { alpha: alphaEach }),
  };
}

/**
 * Two pairs say next to nothing of their scatter: a zero among them is chance, not evidence. From three on the pairs are
 * enough where they would have shown the difference asked about.
 */
const LEAST_PAIRS = 3;

const isTooFew = ({ pairs, smallestSeenPct }: Figures, wanted: number): boolean =>
  pairs < LEAST_PAIRS || !smallestSeenPct.determinable || smallestSeenPct.value > wanted;

const signed = (pct: number): string => `${pct < 0 ? "" : "+"}${roundHalfAway(pct, 2)} %`;

function textOf(figures: Figures, biased: boolean, tooFew: boolean): string {
  const { apertureUm, meanPct, fromPct, toPct, smallestSeenPct } = figures;
  const name = apertureText(apertureUm);
  if (fromPct === null || toPct === null) return `${name}: ${signed(meanPct)} in a single pair, which shows nothing`;
  const range = `${signed(meanPct)} (${signed(fromPct)} to ${signed(toPct)})`;
  if (biased) return `${name}: the working stack passes ${range}: biased`;
  const seen = smallestSeenPct.determinable
    ? `; less than ${roundHalfAway(smallestSeenPct.value, 2)} % would hide`
    : "";
  return `${name}: ${range}, ${tooFew ? "too few pairs to tell" : "no bias shown"}${seen}`;
}

/**
 * Compares a working stack with a master stack, or two stations on split samples: at each aperture the mean of the
 * paired differences in % passing with its range by Student's t,
 *
 *     d +- t s / sqrt n
 *
 * Ranges hold for all apertures together (Bonferroni); a bias is flagged where its p stands by Holm's step-down. Passing
 * percentages of neighbouring sieves move together, which makes both err on the careful side.
 *
 * @source paired t test, common practice; Holm as `standing`
 */
export function compareStacks(pairs: readonly PairedRuns[], choice: ComparisonChoice = {}): StacksCompared {
  const { alpha = 0.05, differencePct = 1 } = choice;
  const differences = [...differencesOf(pairs)].toSorted(([a], [b]) => b - a);
  const alphaEach = alpha / Math.max(1, differences.length);
  const figures = differences.map(([um, found]) => figuresOf(um, found, alphaEach, differencePct));
  const stands = standing(
    figures.map((f) => f.p ?? 1),
    alpha,
  );
  const apertures = figures.map((f, i) => {
    const biased = stands[i] ?? false;
    const tooFew = !biased && isTooFew(f, differencePct);
    return { ...f, biased, tooFew, text: textOf(f, biased, tooFew) };
  });
  const biased = apertures.some((a) => a.biased);
  const tooFew = !biased && apertures.some((a) => a.tooFew);
  return { apertures, biased, tooFew, notes: notesOn(pairs.length, apertures.length, alpha) };
}

const notesOn = (pairs: number, apertures: number, alpha: number): string[] => [
  `${pairs} pairs; working less master, in % passing`,
  `ranges and biases hold for all ${apertures} apertures together: ${100 * alpha} % chance that any bias told is false`,
  "what is called visible would be seen nine times in ten",
];
