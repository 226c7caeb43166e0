import type { Amendment } from "../record/logEntry.ts";
import type { Standing } from "../record/versions.ts";

/** "2026-11-24 03:12": a moment as pages show it. */
export const momentText = (at: string): string => at.slice(0, 16).replace("T", " ");

const DONE: Readonly<Record<Amendment["kind"], string>> = {
  correction: "corrected",
  voided: "voided",
  reinstated: "reinstated",
  waived: "waived",
};

/** A later entry about a test in words: what, its number, when, by whom, why. */
export const amendmentText = (later: Amendment): string =>
  `${DONE[later.kind]}  no. ${later.number} · ${momentText(later.at)} · ${later.by}${later.signedOn ? " with PIN" : ""}: ${later.reason}`;

/** How a test stands, in words for a list: void before all else; nothing for a test as it was recorded. */
export function standingText(standing: Standing | undefined): string {
  if (standing === undefined) return "";
  const { corrections, voided, waived } = standing;
  return [voided ? "VOID ×" : "", waived ? "waived" : "", corrections > 0 ? "corrected" : ""]
    .filter((word) => word !== "")
    .join(" ");
}

/** How often a test was corrected: "corrected once", "corrected 3 times". */
export const correctionsText = (corrections: number): string =>
  corrections === 1 ? "corrected once" : `corrected ${corrections} times`;
