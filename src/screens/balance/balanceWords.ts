import { balanceState } from "../../procedure/balance/balanceState.ts";
import { shiftBegan } from "../../shift/schedule.ts";
import { clockText } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { type Span, span } from "../line.ts";
import type { App } from "../place.ts";

/** That the balance's last check failed, and what to do; null unless it did. It holds nothing up. */
export function balanceFailedWords({ balanceCheck, now }: App): string | null {
  const { state } = balanceState(balanceCheck ? [balanceCheck] : [], now, { per: "hours", hours: 1 });
  if (state !== "failed") return null;
  return say`balance FAILED its check at ${clockText(balanceCheck?.at ?? "")}: clean it and check again (Esc, then b on the bench)`;
}

/** The balance in a few words for the top of the bench: checked this shift and when, or what is amiss. */
export function balanceSpan({ balanceCheck, now, station }: App): Span {
  const began = shiftBegan(now, station);
  const { state } = balanceState(balanceCheck ? [balanceCheck] : [], now, { per: "shift", began });
  const at = clockText(balanceCheck?.at ?? "");
  if (state === "checked") return span(say`balance ok ${at}`, "pass");
  if (state === "failed") return span(say`balance FAILED !`, "fail");
  return span(state === "overdue" ? say`balance check due !` : say`balance not checked !`, "warning");
}
