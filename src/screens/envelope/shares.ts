import type { Share } from "../../envelope/revisions/edits.ts";
import { say } from "../../words/say.ts";

/** What a limit on an aperture is put on, in words. */
export function shareOf(share: Share, aperture: string): string {
  switch (share) {
    case "passingPct":
      return say`passing ${aperture}`;
    case "retainedPct":
      return say`retained on ${aperture}`;
    case "coarserPct":
      return say`coarser than ${aperture}`;
  }
}

/** The same with its unit, short enough for a column. */
export function shareName(share: Share, aperture: string): string {
  switch (share) {
    case "passingPct":
      return say`passing ${aperture} %`;
    case "retainedPct":
      return say`retained on ${aperture} %`;
    case "coarserPct":
      return say`coarser than ${aperture} %`;
  }
}

/** The words that somebody may type before an aperture, as the screens say them and in English. */
const typedWords = (): readonly (readonly [string, string])[] => [
  [say`passing`, "passing"],
  [say`retained`, "retained"],
  [say`coarser`, "coarser"],
];

/** What was typed of a new limit, with its first word in English, as records have it. */
export function typedInEnglish(typed: string): string {
  const text = typed.trimStart();
  const [said = "", english = ""] =
    typedWords().find(([word]) => text.toLowerCase().startsWith(`${word.toLowerCase()} `)) ?? [];
  return english + text.slice(said.length);
}
