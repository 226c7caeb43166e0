import type { Outcome } from "../../entry/outcome.ts";
import { type Determination, determined, undetermined } from "../../record/determination.ts";
import type { Interpolation } from "../../record/product.ts";
import type { Rows } from "../curve.ts";
import { type Balance, balanceOf } from "./balance.ts";
import { type DeckClass, deckClasses } from "./classes.ts";
import { type CutAperture, coarserThan, cutAperture } from "./cutAperture.ts";
import { splitAtCut, splitByClasses } from "./massSplit.ts";
import { type PartitionClass, partitionOf } from "./partition.ts";
import { type PartitionSizes, partitionSizeUm } from "./partitionSize.ts";
import { type Recoveries, recoveries, recoveriesOfProducts } from "./recoveries.ts";
import { type Sharpness, sharpnessOf } from "./sharpness.ts";

export interface DeckChoices {
  /** Aperture of the stack at which recoveries are taken, um; undefined: the one nearest the cut size. */
  readonly cutUm?: number;
  readonly interpolation: Interpolation;
  /** What the mass split is drawn from: all size classes by least squares, or the cut aperture alone. */
  readonly split?: "classes" | "cut";
}

/** How well a screen deck separates. Shares and recoveries from 0 to 1, sizes in um, partition numbers in %. */
export interface DeckPerformance extends Recoveries, Sharpness {
  /** Oversize as a share of the feed by mass. */
  readonly oversizeShare: Determination;
  readonly balance: Balance | null;
  /** Where the recoveries were taken, um. */
  readonly cutUm: Determination;
  /** Recoveries with the feed that the products add up to, in place of the sampled one. */
  readonly ofProducts: Recoveries;
  /** Coarsest class first. */
  readonly partition: readonly PartitionClass[];
  /** Size of which half goes over: d50 of the partition curve. */
  readonly cutSizeUm: Determination;
  readonly d25Um: Determination;
  readonly d75Um: Determination;
}

const none = (reason: string): DeckPerformance => {
  const nothing = undetermined(reason);
  const noRecovery = { oversizeRecovery: nothing, undersizeRecovery: nothing, overallEffectiveness: nothing };
  return {
    ...noRecovery,
    ...{ oversizeShare: nothing, balance: null, cutUm: nothing, ofProducts: noRecovery, partition: [] },
    ...{ cutSizeUm: nothing, d25Um: nothing, d75Um: nothing },
    ...{ probableErrorUm: nothing, imperfection: nothing, sharpness: nothing },
  };
};

function sizesOf(partition: readonly PartitionClass[], interpolation: Interpolation): PartitionSizes {
  const at = (pct: number) => partitionSizeUm(partition, pct, interpolation);
  return { d25: at(25), d50: at(50), d75: at(75) };
}

type RecoveryKeys = Pick<DeckPerformance, "cutUm" | "ofProducts" | keyof Recoveries>;

function recoveriesAt(classes: readonly DeckClass[], share: number, cut: Outcome<CutAperture>): RecoveryKeys {
  if (!cut.ok) {
    const { cutUm, ofProducts, oversizeRecovery, undersizeRecovery, overallEffectiveness } = none(cut.reason);
    return { cutUm, ofProducts, oversizeRecovery, undersizeRecovery, overallEffectiveness };
  }
  const { apertureUm, assumption } = cut.value;
  const coarserPct = coarserThan(classes, apertureUm);
  return {
    cutUm: determined(apertureUm, "um", assumption === null ? [] : [assumption]),
    ...recoveries(share, coarserPct),
    ofProducts: recoveriesOfProducts(share, coarserPct),
  };
}

/** Everything that follows once the share of oversize is settled. */
function withShare(
  classes: readonly DeckClass[],
  share: number,
  interpolation: Interpolation,
  cutOf: (cutSizeUm: Determination) => Outcome<CutAperture>,
): DeckPerformance {
  const partition = partitionOf(classes, share);
  const sizes = sizesOf(partition, interpolation);
  const middles = partition.filter((each) => each.toOversizePct.determinable).map(({ sizeUm }) => sizeUm);
  return {
    oversizeShare: determined(share, "1"),
    balance: balanceOf(classes, share),
    partition,
    ...{ cutSizeUm: sizes.d50, d25Um: sizes.d25, d75Um: sizes.d75 },
    ...sharpnessOf(sizes, middles),
    ...recoveriesAt(classes, share, cutOf(sizes.d50)),
  };
}

function splitOverClasses(classes: readonly DeckClass[], { cutUm, interpolation }: DeckChoices): DeckPerformance {
  const split = splitByClasses(classes);
  if (!split.ok) return none(split.reason);
  return withShare(classes, split.value.oversizeShare, interpolation, (d50) => cutAperture(classes, cutUm, d50));
}

/** The split of one aperture: the one asked for, else the one that the split over all classes leads to. */
function splitAtOneAperture(classes: readonly DeckClass[], choices: DeckChoices): DeckPerformance {
  const cut = cutAperture(classes, choices.cutUm, splitOverClasses(classes, choices).cutSizeUm);
  if (!cut.ok) return none(cut.reason);
  const split = splitAtCut(coarserThan(classes, cut.value.apertureUm));
  if (!split.ok) return none(split.reason);
  return withShare(classes, split.value.oversizeShare, choices.interpolation, () => cut);
}

/**
 * Performance of a screen deck from the gradings of its feed, oversize and undersize on the same stack (throughput side;
 * the deck's own aperture and load do not enter): mass split by least squares over all classes, partition numbers,
 * cut size d50, imperfection and sharpness, and at one aperture oversize recovery, undersize recovery and overall
 * effectiveness, each by its own name (CP-13).
 * @returns every value, or the reason why there is none; if the streams do not balance at all, the same reason for all
 * @source McCabe, Smith and Harriott ch. 30; Wills (both memory); see the files of this folder
 */
export function deckPerformance(feed: Rows, oversize: Rows, undersize: Rows, choices: DeckChoices): DeckPerformance {
  const classes = deckClasses({ feed, oversize, undersize });
  if (!classes.ok) return none(classes.reason);
  const bySplit = choices.split === "cut" ? splitAtOneAperture : splitOverClasses;
  return bySplit(classes.value, choices);
}
