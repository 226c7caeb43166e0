/** The two-parameter size distributions that a grading is compared with. */
export const MODEL_IDS = ["rosinRammler", "gatesGaudinSchuhmann", "logNormal"] as const;
export type ModelId = (typeof MODEL_IDS)[number];

/**
 * What all models here share: on a grid of their own each is the straight line `v = slope (ln x - lnSizeUm)`,
 * x in um. The size parameter lies where v = 0; the slope (always above 0) carries the second parameter.
 */
export interface GridLine {
  readonly lnSizeUm: number;
  readonly slope: number;
}

/** A curve over its grid's v: % passing, and by how much that rises per unit of v. */
export interface GridCurve {
  readonly passingPctAt: (v: number) => number;
  readonly risePctAt: (v: number) => number;
}

/** A line and how well the points pin it down: standard errors of its two parameters, in the line's own units. */
export interface Estimate {
  readonly sizeUm: number;
  readonly sizeErrorUm: number;
  readonly slope: number;
  readonly slopeError: number;
}

export interface Parameter {
  readonly key: string;
  readonly label: string;
  readonly unit: "um" | "1";
}

/** The parameters of a fit under the names that the trade gives them; standard errors in the same units. */
export type NamedParameters =
  | {
      readonly model: "rosinRammler";
      readonly sizeUm: number;
      readonly spread: number;
      readonly standardErrors: { readonly sizeUm: number; readonly spread: number };
    }
  | {
      readonly model: "gatesGaudinSchuhmann";
      readonly sizeUm: number;
      readonly exponent: number;
      readonly standardErrors: { readonly sizeUm: number; readonly exponent: number };
    }
  | {
      readonly model: "logNormal";
      readonly medianUm: number;
      readonly geometricStandardDeviation: number;
      readonly standardErrors: { readonly medianUm: number; readonly geometricStandardDeviation: number };
    };

/** One model: its words, its straight-line grid there and back, and its parameters by name. */
export interface SizeModel extends GridCurve {
  readonly id: ModelId;
  readonly label: string;
  /** The size first, then what the slope says. */
  readonly parameters: readonly [Parameter, Parameter];
  readonly formula: string;
  readonly source: string;
  /** Place of a size along the grid, u = ln x. */
  readonly gridX: (sizeUm: number) => number;
  readonly sizeUmAt: (u: number) => number;
  /** Place of a % passing up the grid; null where the grid has none (0 %, mostly 100 % too). */
  readonly gridY: (passingPct: number) => number | null;
  /** Where the line ends up the grid: 0 for a curve that reaches 100 % at a size, else null. */
  readonly topV: number | null;
  /** Percentages to mark up the grid, each at its own `gridY`. */
  readonly ticksPct: readonly number[];
  readonly named: (estimate: Estimate) => NamedParameters;
}

/** Along all three grids: u = ln x, x in um, and back. */
export const alongLogSize = {
  gridX: (sizeUm: number): number => Math.log(sizeUm),
  sizeUmAt: (u: number): number => Math.exp(u),
};

/** A % that lies inside the open interval from 0 to 100 even as a share in double precision. */
export const isInside = (passingPct: number): boolean => passingPct / 100 > 0 && passingPct / 100 < 1;
