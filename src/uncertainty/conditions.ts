import type { ComponentId, KnownAperture } from "../record/uncertainty.ts";

export { COMPONENT_IDS, type ComponentId, type KnownAperture } from "../record/uncertainty.ts";

/** What is known of the balance; each figure in g. */
export interface BalanceConditions {
  /** The step of the display d; a reading lies evenly within half a step of the mass. */
  readonly readabilityG?: number;
  /** Standard deviation of weighing the same mass again. */
  readonly repeatabilityG?: number;
  /** The most that the balance deviates from a straight line, either way, at any one load. */
  readonly linearityG?: number;
  /** The most that the zero may have moved, either way, from the empty to the full weighings. */
  readonly driftG?: number;
  /** Whether every sieve is weighed empty, or every residue is weighed in one vessel whose tare was taken once. */
  readonly tare?: "each" | "common";
  /** In how many portions the charge was sieved; each sieve is weighed empty once and full once a portion. */
  readonly portions?: number;
  /** Apertures of rows whose empty reading is left out: asked is only what differs from tests that share it. */
  readonly sharedEmptyUm?: readonly number[];
}

/** Present: apertures count, those without a certificate within the tolerance Y of the series, or taken as exact. */
export interface ApertureConditions {
  readonly known?: readonly KnownAperture[];
  /** "exact": only sieves with a certificate count. */
  readonly others?: "tolerance" | "exact";
  /** "effective": what is known was found with a reference material; else it is by certificate. */
  readonly by?: "effective";
}

export interface MaterialConditions {
  readonly particleDensityKgM3?: number;
  /** Volume of a grain over the cube of the aperture that it just passes; pi/6, a sphere, if nothing is said. */
  readonly volumeShapeFactor?: number;
}

/** How the charge came out of the lot: a standard deviation of the product's own, or Gy's fundamental error. */
export type SamplingConditions =
  | {
      readonly kind: "stated";
      /** Standard deviation of sampling and splitting in % passing where 50 % pass. */
      readonly sdPctAt50: number;
    }
  | {
      readonly kind: "fundamental";
      /** Mass of the sample that the charge was split from. */
      readonly sampleG: number;
      /** Mass of the lot; without it the lot is endless. */
      readonly lotG?: number;
      /** Variance of grouping and segregation as a multiple of the fundamental one; 0 if nothing is said. */
      readonly grouping?: number;
    };

/** How much more would still have passed: at most so much of the charge on each sieve, or what a check minute moved. */
export type EndPointConditions =
  | { readonly remainderPct: number }
  | { readonly movedG: readonly { readonly apertureUm: number; readonly massG: number }[] };

/** All that bears on how sure a result is, besides its masses. Everything may be absent; that is then not included. */
export interface Conditions {
  readonly balance?: BalanceConditions;
  readonly apertures?: ApertureConditions;
  readonly material?: MaterialConditions;
  readonly sampling?: SamplingConditions;
  readonly endPoint?: EndPointConditions;
  readonly loss?: {
    /** The chance, 0 to 1, that what was lost was dust from the finest fraction; 0.5 if nothing is said. */
    readonly dustShare?: number;
  };
  /** Components that the product switches off. */
  readonly off?: readonly ComponentId[];
}
