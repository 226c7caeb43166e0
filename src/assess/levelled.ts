import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Fraction } from "../grading/grading.ts";
import { apertureText } from "../series/apertureText.ts";
import type { Notice } from "./assessment.ts";

/** A row of the stack as it is spoken of. */
export const rowName = (apertureUm: number): string =>
  apertureUm === 0 ? "the pan" : `the ${apertureText(apertureUm)} sieve`;

export interface Levelled {
  readonly fractions: readonly Fraction[];
  readonly notices: readonly Notice[];
}

/** A fraction lighter than nothing by no more than the balance can read counts as nothing, and is noted; more is refused. */
export function levelled(fractions: readonly Fraction[], readabilityG: number): Outcome<Levelled> {
  const low = fractions.filter((f) => f.netG < 0);
  const wrong = low.find((f) => f.netG < -readabilityG);
  if (wrong) return refused(`${rowName(wrong.apertureUm)} is ${-wrong.netG} g lighter full than empty: weigh it again`);
  return accepted({
    fractions: fractions.map((f) => (f.netG < 0 ? { ...f, netG: 0 } : f)),
    notices: low.map((f) => ({
      id: "below-empty",
      severity: "note",
      text: `${rowName(f.apertureUm)} is ${-f.netG} g lighter full than empty, within what the balance reads: counted as 0`,
    })),
  });
}
