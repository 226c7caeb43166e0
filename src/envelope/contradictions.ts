import type { Product } from "../record/product.ts";
import { apertureText } from "../series/apertureText.ts";
import { envelopeOf, type PassingBound } from "./passingBounds.ts";

/** Two limits that don't go together, told at the coarser of them. */
export interface Contradiction {
  readonly apertureUm: number;
  readonly text: string;
  /** No distribution can meet both; without it one of them merely decides nothing. */
  readonly impossible: boolean;
}

type Side = "minPct" | "maxPct";

/** Among some bounds the one with the highest limit on a side. */
function highest(bounds: readonly PassingBound[], side: Side): PassingBound | null {
  const limited = bounds.filter((bound) => bound[side] !== null);
  return limited.reduce<PassingBound | null>((top, b) => ((b[side] ?? 0) > (top?.[side] ?? -1) ? b : top), null);
}

const at = ({ apertureUm }: PassingBound): string => apertureText(apertureUm);

/** What no curve can do: pass less at a coarser aperture than it must at a finer one. */
function impossible(bound: PassingBound, below: PassingBound | null): Contradiction[] {
  if (below === null || bound.maxPct === null || (below.minPct ?? 0) <= bound.maxPct) return [];
  const text = `at most ${bound.maxPct} % passing ${at(bound)}, but at least ${below.minPct} % passing the finer ${at(below)}: no curve does both`;
  return [{ apertureUm: bound.apertureUm, text, impossible: true }];
}

function idle(side: Side, bound: PassingBound, other: PassingBound | null): Contradiction[] {
  const [here, there] = [bound[side], other?.[side] ?? null];
  if (other === null || here === null || there === null || there <= here) return [];
  const text =
    side === "minPct"
      ? `at least ${here} % passing ${at(bound)} is below the ${there} % at the finer ${at(other)}: it decides nothing`
      : `at most ${there} % passing ${at(other)} is above the ${here} % at the coarser ${at(bound)}: it decides nothing`;
  return [{ apertureUm: bound.apertureUm, text, impossible: false }];
}

/**
 * Where an envelope falls as the aperture grows. Passing % never does, so such limits exclude each other (a lower one at a
 * finer aperture above an upper one at a coarser) or one of them decides nothing. Coarsest first; empty for an envelope
 * that rises. Limits on what single sieves retain are no bounds of the curve and are not looked at.
 *
 * @source arithmetic: passing % is cumulative
 */
export function contradictions(product: Pick<Product, "envelope" | "values">): readonly Contradiction[] {
  const bounds = envelopeOf(product);
  return bounds.flatMap((bound) => {
    const finer = bounds.filter((other) => other.apertureUm < bound.apertureUm);
    const [min, max] = [highest(finer, "minPct"), highest(finer, "maxPct")];
    const never = impossible(bound, min);
    return never.length > 0 ? never : [...idle("minPct", bound, min), ...idle("maxPct", bound, max)];
  });
}
