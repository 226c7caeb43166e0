import type { RetestOf } from "../record/test.ts";
import { say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";

interface Repeated {
  readonly way: RetestOf["way"];
  readonly number: number;
}

/** How a test came about that repeats another one: "resample, repeats no. 5"; nothing for one that repeats none. */
export const repeatedWords = (retest: Repeated | undefined): string =>
  retest === undefined ? "" : say`${spoken(retest.way)}, repeats no. ${retest.number}`;

export const retestWords = ({ retest }: { readonly retest?: RetestOf | undefined }): string =>
  repeatedWords(retest && { way: retest.way, number: retest.of.number });
