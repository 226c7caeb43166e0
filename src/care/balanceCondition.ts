import type { RegisteredBalance, RegisteredWeight } from "../record/care.ts";
import type { BalanceCheck } from "../record/checks.ts";

/** How far ahead a calibration that falls due is told, in days. */
const SOON_DAYS = 30;
const DAY_MS = 86_400_000;

/** What may be said of a calibration or certificate on one day. */
export interface CalibrationCondition {
  readonly state: "fit" | "due" | "overdue" | "not known";
  readonly text: string;
}

export interface BalanceCondition extends CalibrationCondition {
  readonly id: string;
  /** Its latest check with weights; null where none was ever made. Whether it passed is told by `hasPassed`. */
  readonly lastCheck: BalanceCheck | null;
}

export interface WeightCondition extends CalibrationCondition {
  readonly weight: string;
  readonly nominalG: number;
}

/**
 * Whether a calibration is relied on still: overdue after the day it is due, due in the 30 days before.
 *
 * @param what "calibration" or "certificate", for the words
 * @source the interval is the certificate's or the plant's own; common practice, no source
 * @example calibrationOf({ day: "2026-01-01", due: "2026-12-31" }, "calibration", "2026-12-15").state // => "due"
 */
export function calibrationOf(
  certificate: { readonly day: string; readonly due?: string | undefined } | undefined,
  what: "calibration" | "certificate",
  today: string,
): CalibrationCondition {
  if (certificate === undefined) return { state: "not known", text: `no ${what} is registered` };
  const { day, due } = certificate;
  if (due === undefined) return { state: "fit", text: `${what} of ${day}, no day set for the next` };
  const daysLeft = Math.round((Date.parse(due) - Date.parse(today)) / DAY_MS);
  if (daysLeft < 0) return { state: "overdue", text: `${what} overdue since ${due}` };
  return { state: daysLeft <= SOON_DAYS ? "due" : "fit", text: `${what} due on ${due}` };
}

/** What may be said of a balance: its calibration, and its latest check. */
export function balanceCondition(
  balance: RegisteredBalance,
  lastCheck: BalanceCheck | null,
  today: string,
): BalanceCondition {
  return { id: balance.id, lastCheck, ...calibrationOf(balance.calibration, "calibration", today) };
}

/** What may be said of a check weight: its certificate. */
export const weightCondition = (
  { weight, nominalG, certificate }: RegisteredWeight,
  today: string,
): WeightCondition => ({
  weight,
  nominalG,
  ...calibrationOf(certificate, "certificate", today),
});
