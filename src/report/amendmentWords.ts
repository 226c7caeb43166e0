import type { Amendment } from "../record/logEntry.ts";
import type { Standing } from "../record/versions.ts";
import { momentText } from "../words/figures.ts";
import { phrase, say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";

const DONE: Readonly<Record<Amendment["kind"], string>> = {
  correction: phrase("corrected"),
  voided: phrase("voided"),
  reinstated: phrase("reinstated"),
  waived: phrase("waived"),
};

/** A later entry about a test in words: what, its number, when, by whom, why. */
export function amendmentText({ kind, number, at, by, signedOn, reason }: Amendment): string {
  const head = say`${spoken(DONE[kind])}  no. ${number} · ${momentText(at)}`;
  return signedOn ? say`${head} · ${by} with PIN: ${reason}` : `${head} · ${by}: ${reason}`;
}

/** How a test stands, in words for a list: void before all else; nothing for a test as it was recorded. */
export function standingText(standing: Standing | undefined): string {
  if (standing === undefined) return "";
  const { corrections, voided, waived } = standing;
  return [voided ? say`VOID ×` : "", waived ? say`waived` : "", corrections > 0 ? say`corrected` : ""]
    .filter((word) => word !== "")
    .join(" ");
}

/** How often a test was corrected: "corrected once", "corrected 3 times". */
export const correctionsText = (corrections: number): string =>
  corrections === 1 ? say`corrected once` : say`corrected ${corrections} times`;
