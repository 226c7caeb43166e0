import type { Product } from "../../../src/record/product.ts";

/** Anew each time: a copy of the product is to share nothing. */
const own = () => ({ rule: "guarded", guards: "rejection", guard: { u: 1.645 }, side: "min" }) as const;

/** A product that states every field there is; a test checks that it does. */
export const FULL_PRODUCT: Product = {
  schema: "sievewright.product/1",
  code: "TH-0510",
  name: "Filter sand (invented)",
  revision: 3,
  effective: "2026-10-01",
  approvedBy: "SB",
  author: "KO",
  reason: "finer sand asked for",
  stackUm: [1400, 1000, 710, 500, 355],
  method: {
    basis: "recovered",
    interpolation: "log-linear",
    apertures: "certified",
    chargeG: { min: 200, target: 300, max: 350 },
    maxLossPct: 0.3,
    washed: false,
    emptyMasses: "each shift",
    program: "TH-V10",
    endPoint: "under 0.1 % in a minute",
    interpolateMissing: true,
    procedure: {
      ruleSet: "own",
      frameMm: { widthMm: 372, lengthMm: 580 },
      charge: { largestParticleMm: 4, outside: "invalidates" },
      load: { rule: "own", limitG: 100, perSieve: [{ apertureUm: 710, limitG: 25 }], overload: "warning" },
      endPoint: {
        criterion: {
          of: "residue",
          limitPct: 1,
          periodS: 60,
          below: true,
          orG: 0.1,
          small: { belowPct: 5, limitPct: 20 },
          sieves: "every",
        },
        required: true,
        notReached: "warning",
      },
      balance: { required: true, interval: { hours: 8 }, readabilityPct: 0.1 },
      program: { required: true, deviation: "invalidates" },
      moisture: { maxPct: 0.5, required: true, above: "note" },
      sieves: { required: true },
    },
    retest: { ways: ["second portion"], atMost: 2, average: true },
    topUm: 2000,
    pan: { sizeUm: 44 },
    classMean: "arithmetic",
    fit: "line",
  },
  envelope: [
    { apertureUm: 1000, passingPct: { min: 75, max: 95 }, decision: own() },
    { apertureUm: 710, retainedPct: { min: 10, max: 40 }, decision: { ...own(), guard: { r: 0.5 } } },
    { apertureUm: 500, coarserPct: { min: 80, max: 97 } },
  ],
  values: [
    { id: "percentileUm", passingPct: 50, min: 690, max: 790, decision: own() },
    { id: "uniformityCoefficient", min: 1, max: 2, decision: { ...own(), guard: { r: 0.5 } } },
    { id: "finenessModulus", series: "en", interpolateMissing: true, min: 1.9, max: 2.5 },
  ],
  decision: { rule: "guarded", guards: "both", guard: { u: 2 }, side: "max", compare: { roundedTo: 1 } },
  show: ["percentileUm@50", "uniformityCoefficient"],
  material: { particleDensityKgM3: 2650, surfaceShapeFactor: 6, volumeShapeFactor: 1, sphericity: 0.9 },
  uncertainty: {
    off: ["drift"],
    sampling: { sampleG: 5000, lotG: 20_000_000, grouping: 0.5 },
    remainderPct: 0.1,
    dustShare: 0.3,
    apertures: "none",
  },
};
