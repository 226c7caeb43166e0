import type { JudgedLimit } from "../envelope/limit.ts";

/** Digits beyond the usual ones, at most. */
const MOST_MORE = 6;

/**
 * A number beside the limit that it misses: with as many digits more than usual as it takes to read differently from
 * that limit, so that nobody reads "95.00, at most 95: above".
 *
 * @param show the number as text with so many digits more than usual
 * @example besideLimit(95.004, limit, (pct, more) => pctText(pct, 2 + more)) // => "95.004" if the limit is 95
 */
export function besideLimit(
  value: number,
  limit: Pick<JudgedLimit, "min" | "max" | "result"> | null,
  show: (shown: number, more: number) => string,
): string {
  const missed = limit?.result === "below" ? limit.min : limit?.result === "above" ? limit.max : null;
  let more = 0;
  if (missed !== null) while (more < MOST_MORE && show(value, more) === show(missed, more)) more += 1;
  return show(value, more);
}
