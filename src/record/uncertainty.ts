import { z } from "zod";
import { apertureUm, code, massG } from "./fields.ts";

/** The sources of uncertainty that are kept apart, in the order in which they are listed. */
export const COMPONENT_IDS = [
  "readability",
  "repeatability",
  "linearity",
  "drift",
  "loss",
  "apertures",
  "grains",
  "sampling",
  "endPoint",
] as const;
export type ComponentId = (typeof COMPONENT_IDS)[number];

const pct = z.number().positive().max(100);

/** How the charge came out of the lot: a standard deviation of the product's own, or Gy's fundamental error. */
const sampling = z.union(
  [
    /** Standard deviation of sampling and splitting in % passing where 50 % pass. */
    z.strictObject({ sdPctAt50: z.number().positive().max(50) }),
    z.strictObject({
      /** Mass of the sample that the charge is split from, and of the lot; without a lot it is endless. */
      sampleG: z.number().positive().max(1e9),
      lotG: z.number().positive().max(1e12).optional(),
      /** Variance of grouping and segregation as a multiple of the fundamental one. */
      grouping: z.number().min(0).max(1000).optional(),
    }),
  ],
  'must be { "sdPctAt50": ... } or { "sampleG": ..., "lotG": ..., "grouping": ... }',
);

/** What a product says of how sure its results are, besides its material. What is absent is not included, and said so. */
export const UncertaintySchema = z.strictObject({
  /** Components that are not counted. */
  off: z.array(z.enum(COMPONENT_IDS)).max(COMPONENT_IDS.length).optional(),
  sampling: sampling.optional(),
  /** The most that each sieve may still hold back, in % of the charge. Without it what a check minute moved, if one was run. */
  remainderPct: pct.optional(),
  /** The chance, 0 to 1, that what was lost was dust from the pan; 0.5 without it. */
  dustShare: z.number().min(0).max(1).optional(),
  /** Sieves without a certificate: within the tolerance of the standard series (also without this), or taken as exact. */
  apertures: z.enum(["series", "none"]).optional(),
});

/** What a certificate or a measurement says of the mean aperture of one sieve, as known when it was used. */
export const KnownApertureSchema = z.strictObject({
  apertureUm,
  serial: code.optional(),
  meanUm: apertureUm,
  /** Expanded uncertainty of the mean, and by which factor it is expanded; 2 without it. */
  expandedUm: z.number().positive().max(1e5),
  coverageFactor: z.number().min(1).max(4).optional(),
});

/** What is known of a balance besides its step; each figure in g, as its certificate or the plant's own checks have it. */
export const balanceFigures = {
  /** Standard deviation of weighing the same mass again. */
  repeatabilityG: massG.optional(),
  /** The most that it deviates from a straight line at any one load, either way. */
  linearityG: massG.optional(),
  /** The most that its zero may move between the empty and the full weighings of a test, either way. */
  driftG: massG.optional(),
};

/**
 * The model by which verdicts are computed with uncertainty. A verdict that was signed without one was computed without:
 * a guarded rule then decided nothing. A model that decides otherwise gets a new number.
 */
export const BUDGET_MODEL = 1;

export type Uncertainty = z.infer<typeof UncertaintySchema>;
export type KnownAperture = z.infer<typeof KnownApertureSchema>;
