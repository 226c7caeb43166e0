import { normalCdf } from "../../../src/grading/normal.ts";

/** An endless lot of grains: shares by mass of log-normal parts, spheres of one density. */
export interface Lot {
  readonly name: string;
  readonly parts: readonly { readonly share: number; readonly medianUm: number; readonly sdLn: number }[];
  readonly densityKgM3: number;
  /** Coarsest first. */
  readonly sievesUm: readonly number[];
  readonly chargesG: readonly number[];
  /** Readability of the balance it is weighed on. */
  readonly stepG: number;
}

export const LOTS: readonly Lot[] = [
  {
    name: "fine sand",
    parts: [{ share: 1, medianUm: 400, sdLn: 0.5 }],
    densityKgM3: 2650,
    sievesUm: [2000, 1400, 1000, 710, 500, 355, 250, 180, 125, 63],
    chargesG: [20, 100, 400],
    stepG: 0.01,
  },
  {
    name: "granules",
    parts: [{ share: 1, medianUm: 3200, sdLn: 0.22 }],
    densityKgM3: 1600,
    sievesUm: [5600, 5000, 4000, 3550, 3150, 2800, 2360, 2000, 1000],
    chargesG: [50, 200, 800],
    stepG: 0.01,
  },
  {
    name: "gravel with sand",
    parts: [
      { share: 0.6, medianUm: 8000, sdLn: 0.35 },
      { share: 0.4, medianUm: 600, sdLn: 0.8 },
    ],
    densityKgM3: 2700,
    sievesUm: [22400, 16000, 11200, 8000, 5600, 4000, 2000, 1000, 500, 250, 125],
    chargesG: [300, 1500, 6000],
    stepG: 0.1,
  },
];

/** What a perfect sieve of this aperture would pass of the endless lot, as a share by mass. */
export const truePassing = ({ parts }: Lot, um: number): number =>
  parts.reduce((sum, { share, medianUm, sdLn }) => sum + share * normalCdf(Math.log(um / medianUm) / sdLn), 0);

/** Mass of one grain, a sphere, in g. */
export const grainG = ({ densityKgM3 }: Lot, um: number): number => (densityKgM3 * 1e-15 * Math.PI * um ** 3) / 6;
