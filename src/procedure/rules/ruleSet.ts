import type { EndPointCriterion, RuleSetId } from "../../record/procedure.ts";
import type { Standing } from "../../series/standing.ts";

/** Where a rule comes from and how well it is founded. */
export interface Founded {
  readonly standing: Standing;
  readonly source: string;
}

export interface Figure extends Founded {
  readonly value: number;
}

/** Residue allowed on one sieve. */
export type LoadRule =
  | (Founded & {
      readonly kind: "area";
      /** Below `coarseFromUm` a constant mass per effective area, from there on one in proportion to the aperture. */
      readonly fineKgPerM2: number;
      readonly coarseFromUm: number;
      readonly coarseKgPerM2PerMm: number;
      /** The effective diameter of a round frame is this much smaller than the frame. */
      readonly rimMm: number;
    })
  | (Founded & { readonly kind: "root-of-aperture"; readonly gPerMm2: number })
  | (Founded & {
      readonly kind: "own";
      readonly limitG: number | null;
      readonly perSieve: readonly { readonly apertureUm: number; readonly limitG: number }[];
    });

/** Mass of a test portion: by the largest particle, or the same for all. */
export type ChargeRule =
  | (Founded & {
      readonly kind: "by size";
      /** Up to this nominal largest size, at least this mass. */
      readonly rows: readonly { readonly upToMm: number; readonly minG: number }[];
      /** For a size between rows: the next larger row, or (D/10)^2 kg. */
      readonly between: "next row" | "square";
    })
  | (Founded & { readonly kind: "fixed"; readonly minG: number; readonly maxG: number | null });

/** The balance reads at least as finely as the larger of a fixed step and a share of the charge. */
export interface ReadabilityRule extends Founded {
  readonly stepG: number | null;
  readonly pctOfCharge: number | null;
}

/** The rules of one method in one edition. Null: the method's figure is not known here. */
export interface RuleSet {
  readonly id: RuleSetId;
  readonly title: string;
  readonly edition: string;
  readonly load: LoadRule | null;
  readonly endPoint: (EndPointCriterion & Founded) | null;
  readonly maxLossPct: Figure | null;
  readonly charge: ChargeRule | null;
  readonly readability: ReadabilityRule | null;
}

export const seen = (source: string): Founded => ({ standing: "seen", source });
export const recalled = (source: string): Founded => ({ standing: "memory", source });

/** The source in words, with a warning where the figure is only recalled. */
export const cited = ({ standing, source }: Founded): string =>
  standing === "memory" ? `${source} (recalled: check your copy)` : source;

/** Rows of a table of largest size in mm and mass in g. */
export const bySize = (rows: readonly (readonly [number, number])[]) =>
  rows.map(([upToMm, minG]) => ({ upToMm, minG }));
