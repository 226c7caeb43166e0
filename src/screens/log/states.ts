import type { IndexRow } from "../../record/indexRow.ts";
import { standingText } from "../../report/amendmentWords.ts";
import { dispositionText, shortVerdict } from "../words.ts";

/** The states of a test that are found by the beginning of their words, in lower case. */
export const statesText = ({
  test,
  verdict,
  disposition,
  amended,
}: Pick<IndexRow, "test" | "verdict" | "disposition" | "amended">): string =>
  [shortVerdict(test, verdict).text, test, dispositionText(disposition), standingText(amended)].join(" ").toLowerCase();
