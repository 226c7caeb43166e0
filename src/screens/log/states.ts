import type { IndexRow } from "../../record/indexRow.ts";
import { standingText } from "../../report/amendmentWords.ts";
import { ENGLISH } from "../../words/manner.ts";
import { inManner } from "../../words/speaking.ts";
import { spoken } from "../../words/spoken.ts";
import { dispositionText, shortVerdict } from "../words.ts";

type Stated = Pick<IndexRow, "test" | "verdict" | "disposition" | "amended">;

const wordsOf = ({ test, verdict, disposition, amended }: Stated): string =>
  [shortVerdict(test, verdict).text, spoken(test), dispositionText(disposition), standingText(amended)]
    .join(" ")
    .toLowerCase();

/** The states of a test that are found by the beginning of their words, in lower case: as shown, and in English. */
export const statesText = (row: Stated): string => {
  const shown = wordsOf(row);
  const english = inManner(ENGLISH, () => wordsOf(row));
  return shown === english ? shown : `${shown} ${english}`;
};
