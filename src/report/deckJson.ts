import type { DeckPerformance } from "../grading/deck/deckPerformance.ts";
import type { Determination } from "../record/determination.ts";
import type { Interpolation } from "../record/product.ts";
import { printedJson } from "../terminal/sanitise.ts";

/** What `deck --json` says besides figures: why a figure is null, and what the others rest on. */
interface Told {
  readonly reasons: Record<string, string>;
  readonly assumptions: Record<string, readonly string[]>;
}

const numberOf = (found: Determination): number | null => (found.determinable ? found.value : null);

function toldOf(figures: Readonly<Record<string, Determination>>): Told {
  const told: Told = { reasons: {}, assumptions: {} };
  for (const [key, found] of Object.entries(figures)) {
    if (!found.determinable) told.reasons[key] = found.reason;
    else if (found.assumptions) told.assumptions[key] = found.assumptions;
  }
  return told;
}

const classesOf = ({ partition }: DeckPerformance) =>
  partition.map(({ apertureUm, sizeUm, feedPct, oversizePct, undersizePct, toOversizePct }) => ({
    ...(apertureUm === 0 ? { pan: true } : {}),
    apertureUm,
    sizeUm,
    feedPct,
    oversizePct,
    undersizePct,
    toOversizePct: numberOf(toOversizePct),
  }));

/**
 * What `deck --json` prints, unrounded: shares and recoveries from 0 to 1, sizes in um, partition numbers in %. A figure
 * that can't be determined is null, and `reasons` says why.
 */
export function deckJson(performance: DeckPerformance, interpolation: Interpolation, notes: readonly string[]): string {
  const { oversizeShare, oversizeRecovery, undersizeRecovery, overallEffectiveness, cutUm } = performance;
  const { cutSizeUm, d25Um, d75Um, imperfection, sharpness, probableErrorUm, balance, ofProducts } = performance;
  const first = { oversizeShare, oversizeRecovery, undersizeRecovery, overallEffectiveness };
  const then = { cutSizeUm, imperfection, cutUm, d25Um, d75Um, sharpness, probableErrorUm };
  const values = (figures: Readonly<Record<string, Determination>>) =>
    Object.fromEntries(Object.entries(figures).map(([key, found]) => [key, numberOf(found)]));
  const json = {
    ...values(first),
    partition: classesOf(performance),
    ...values(then),
    ofProducts: values({ ...ofProducts }),
    balance,
    interpolation,
    ...toldOf({ ...first, ...then }),
    notes,
  };
  return `${printedJson(json)}\n`;
}
