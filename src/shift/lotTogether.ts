import type { JudgedLimit } from "../envelope/limit.ts";
import type { LotTest } from "./lotTest.ts";

/** One limited figure over all tests of a lot. */
export interface LimitTogether {
  readonly on: string;
  readonly min: number | null;
  readonly max: number | null;
  /** What each test found, in the order of the tests; null: it was not judged by this limit. */
  readonly found: readonly (JudgedLimit | null)[];
  /** Whether every test that was judged by it met it. */
  readonly met: boolean;
}

const isMet = (limit: JudgedLimit | null): boolean => limit === null || limit.result === "within";

/**
 * The results of a lot's tests side by side, one row a limit: those that some test missed come first, each part in the order
 * of the product. Bounds are those of the latest test that was judged by the limit.
 */
export function limitsTogether(tests: readonly LotTest[]): readonly LimitTogether[] {
  const names = [...new Set(tests.flatMap(({ limits }) => limits.map(({ on }) => on)))];
  const rows = names.map((on): LimitTogether => {
    const found = tests.map(({ limits }) => limits.find((limit) => limit.on === on) ?? null);
    const { min = null, max = null } = found.findLast((limit) => limit !== null) ?? {};
    return { on, min, max, found, met: found.every(isMet) };
  });
  return [...rows.filter(({ met }) => !met), ...rows.filter(({ met }) => met)];
}
