import type { Budget } from "../budget.ts";
import { DEFAULT_GUARD, type Guard, guardWidth, type LimitRange } from "./decide.ts";

/** A limit on a percentage at a sieve that the count of grains alone leaves undecided. */
export interface FewGrains {
  readonly apertureUm: number;
  /** Grains on the rarer side of the sieve, and how many would do. */
  readonly side: "coarser" | "finer";
  readonly grains: number;
  readonly needed: number;
  readonly limit: LimitRange;
}

/** Grains coarser than a sieve or finer, whichever are fewer; null without a particle density. */
export function rarerGrains(
  budget: Budget,
  apertureUm: number,
): { readonly side: FewGrains["side"]; readonly grains: number } | null {
  const { grains } = budget;
  if (!grains) return null;
  const coarser = grains.filter((row) => row.apertureUm >= apertureUm).reduce((sum, row) => sum + row.grains, 0);
  const finer = grains.filter((row) => row.apertureUm < apertureUm).reduce((sum, row) => sum + row.grains, 0);
  return coarser <= finer ? { side: "coarser", grains: coarser } : { side: "finer", grains: finer };
}

/** Half the width of a limit in %; an open side ends at 0 or 100 %. */
const halfWidthPct = ({ min, max }: LimitRange): number => ((max ?? 100) - (min ?? 0)) / 2;

/**
 * The limits on percentages at sieves that no result could meet beyond doubt, were the count of grains the only
 * uncertainty: the guard band of the grains' part alone is at least half the width of the limit. "31 grains on 2.8 mm:
 * too few to judge 0-5 %". The grains needed are those at which the two guard bands just leave room.
 *
 * @param limits of passing %, in the order of the budget's sieves or not; others are passed over
 */
export function fewGrains(
  budget: Budget,
  limits: readonly (LimitRange & { readonly apertureUm: number })[],
  guard: Guard = DEFAULT_GUARD,
): FewGrains[] {
  return limits.flatMap(({ apertureUm, min, max }) => {
    const sure = budget.passing.find((each) => each.name === `passingPct@${apertureUm}`);
    const part = sure?.determinable ? sure.components.find(({ id }) => id === "grains") : undefined;
    const rare = rarerGrains(budget, apertureUm);
    if (!part?.included || !rare) return [];
    const times = (guardWidth(guard, part.u) / halfWidthPct({ min, max })) ** 2;
    return times < 1 ? [] : [{ apertureUm, ...rare, needed: rare.grains * times, limit: { min, max } }];
  });
}
