import type { Basis, ClassMean, Fit, Interpolation, Material, ModulusSeries } from "../record/product.ts";

/** What one sieve, or the pan (aperture 0), holds after sieving. */
export interface Fraction {
  readonly apertureUm: number;
  readonly emptyG: number | null;
  readonly fullG: number | null;
  readonly netG: number;
  /**
   * The mean aperture over which the curve is drawn here, where the product chooses another than the nominal one; null
   * where what it chooses is not known. Absent: the nominal aperture.
   */
  readonly meanUm?: number | null;
}

/** A fraction with its percentages by mass. The pan passes 0 and has 100 % coarser, by definition. */
export interface GradedFraction extends Fraction {
  readonly retainedPct: number;
  readonly coarserPct: number;
  readonly passingPct: number;
}

/** One test's masses as percentages: coarsest sieve first, the pan last. */
export interface Grading {
  readonly basis: Basis;
  readonly chargeG: number | null;
  readonly recoveredG: number;
  /** Dry mass before washing minus dry mass after it; 0 for a test that was not washed. Joins the pan's percentages. */
  readonly washLossG: number;
  /** The mass that is 100 %. */
  readonly totalG: number;
  readonly lossG: number | null;
  readonly lossPct: number | null;
  readonly rows: readonly GradedFraction[];
}

/** The choices that a product may make for its numbers, every one decided (defaults filled in). */
export interface GradingChoices {
  readonly interpolation: Interpolation;
  /** Assumed size that everything passes; undefined: the next coarser size of R20/3. */
  readonly topUm?: number;
  /** undefined: the pan counts, with half the finest aperture as its lower bound. */
  readonly pan?: "dropped" | { readonly sizeUm: number };
  /** undefined: the class size that each value's own definition asks for. */
  readonly classMean?: ClassMean;
  readonly fit: Fit;
  readonly material: Material;
  readonly modulusSeries: ModulusSeries;
  readonly modulusInterpolateMissing: boolean;
}

/** Which mass is 100 %, and the dry masses put on the stack (washed: before washing) and left after washing, in g. */
export interface GradingMasses {
  readonly basis: Basis;
  readonly chargeG: number | null;
  readonly washedG: number | null;
}
