import { expect, test } from "vitest";
import { newAperture } from "../../../src/envelope/revisions/newLimit.ts";
import { typedInEnglish } from "../../../src/screens/envelope/shares.ts";
import { inLanguage } from "../../words/tongues.ts";

const shareOf = (text: string): string => {
  const read = newAperture(typedInEnglish(text));
  return read.ok ? `${read.value.share} ${read.value.apertureUm}` : read.reason;
};

test("a limit is typed with the words of the screens before the aperture, or with the English ones", async () => {
  expect(["500", "retained 500", "coarser No. 30"].map(shareOf)).toEqual([
    "passingPct 500",
    "retainedPct 500",
    "coarserPct 600",
  ]);
  const german = () => ["1,4 mm", "Rückstand 500", "gröber 500", "retained 500", "Durchgang 500"].map(shareOf);
  expect(await inLanguage("de", german)).toEqual([
    "passingPct 1400",
    "retainedPct 500",
    "coarserPct 500",
    "retainedPct 500",
    "passingPct 500",
  ]);
  expect(await inLanguage("es", () => ["más grueso 250", "retenido 250"].map(shareOf))).toEqual([
    "coarserPct 250",
    "retainedPct 250",
  ]);
});
