import type { Decision, LimitDecision } from "../../record/decision.ts";

/** "1.645 u" or "0.5 U". */
export const guardText = (guard: NonNullable<Decision["guard"]>): string =>
  "u" in guard ? `${guard.u} u` : `${guard.r} U`;

/** "guarded, both, band 0.5 U, at the lower end only": what a limit says of its own decision. */
function ownText({ rule, guards, guard, side }: LimitDecision): string {
  const parts = [
    rule ? [rule] : [],
    guards ? [`guards ${guards}`] : [],
    guard ? [`band ${guardText(guard)}`] : [],
    side ? [side === "min" ? "at the lower end only" : "at the upper end only"] : [],
  ].flat();
  return parts.length === 0 ? "as the product" : parts.join(", ");
}

/** What changed in how one limit is decided; empty where nothing did. */
export function decisionChange(before: LimitDecision | undefined, after: LimitDecision | undefined): string[] {
  const [from, to] = [before, after].map((own) => (own === undefined ? "as the product" : ownText(own)));
  if (from !== to) return [`decided ${from} -> ${to}`];
  return (before === undefined) === (after === undefined) ? [] : ["decided as the product, said or not said now"];
}
