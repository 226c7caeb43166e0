import type { Determination } from "../../record/determination.ts";
import type { ValueId } from "../../record/valueIds.ts";
import type { Grading, GradingChoices } from "../grading.ts";

/** One number drawn from a distribution, with all that a person is told about it. */
export interface CharacteristicValue {
  readonly id: ValueId;
  /** The trade's word, short enough for a table. */
  readonly label: string;
  /** "um", "phi", "1" for a pure number, ... */
  readonly unit: string;
  /** What the test and the product must hold for it. */
  readonly needs: string;
  readonly formula: string;
  readonly convention: string;
  readonly source: string;
  /** The class of a value in the trade's words, for the values that have classes: "moderately sorted". */
  readonly words?: (value: number) => string;
  /** The value in `unit` at full precision with what it rests on, or the reason why there is none. */
  readonly determine: (grading: Grading, choices: GradingChoices) => Determination;
}
