import type { BalanceCheck, WeightReading } from "../../record/checks.ts";
import { isAbove } from "../compare.ts";
import { massWords } from "../wording.ts";

/** How often a balance is checked: once since the shift or day began, or every so many hours. */
export type CheckInterval =
  | { readonly per: "shift" | "day"; readonly began: string }
  | { readonly per: "hours"; readonly hours: number };

export interface BalanceState {
  readonly state: "checked" | "unchecked" | "failed" | "overdue";
  /** The check that decides; none was ever made where it is null. */
  readonly last: BalanceCheck | null;
  /** Results since this moment rest on a balance that failed; null unless it failed after a good check. */
  readonly suspectSince: string | null;
  readonly text: string;
}

/** Did the reading stay within its tolerance of the nominal mass, the limit included? */
export const isWithinTolerance = ({ readG, nominalG, toleranceG }: WeightReading): boolean =>
  !isAbove(Math.abs(readG - nominalG), toleranceG);

export const hasPassed = (check: BalanceCheck): boolean => check.readings.every(isWithinTolerance);

const HOUR_MS = 3_600_000;

/**
 * What can be said of a balance at a moment, from its checks: `failed` if the latest check failed, `unchecked` if
 * none was made, `overdue` if the latest good one is older than the interval, else `checked`. Checks after the
 * moment are left out, so that a test is judged by what was known when it was weighed.
 *
 * @param now the moment of weighing, ISO 8601 with offset
 * @source common practice, no source
 */
export function balanceState(checks: readonly BalanceCheck[], now: string, interval: CheckInterval): BalanceState {
  const until = Date.parse(now);
  const known = checks.filter((c) => Date.parse(c.at) <= until).toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at));
  const last = known.at(-1) ?? null;
  if (last === null) return { state: "unchecked", last, suspectSince: null, text: "the balance was never checked" };
  if (!hasPassed(last)) {
    const good = known.filter(hasPassed).at(-1);
    return { state: "failed", last, suspectSince: good?.at ?? null, text: failureText(last) };
  }
  const since = interval.per === "hours" ? until - interval.hours * HOUR_MS : Date.parse(interval.began);
  if (Date.parse(last.at) >= since)
    return { state: "checked", last, suspectSince: null, text: "the balance is checked" };
  return {
    state: "overdue",
    last,
    suspectSince: null,
    text: `the balance was last checked before this ${periodOf(interval)}`,
  };
}

const periodOf = (interval: CheckInterval): string =>
  interval.per === "hours" ? `period of ${interval.hours} h` : interval.per;

function failureText(check: BalanceCheck): string {
  const off = check.readings.filter((reading) => !isWithinTolerance(reading));
  const words = off.map(
    (r) => `${massWords(r.nominalG)} read ${r.readG} g, allowed ${massWords(r.toleranceG)} either way`,
  );
  return `the balance failed its check: ${words.join("; ")}`;
}
