import type { CentreAndSigma } from "../limits/chartLimits.ts";
import { RUN_RULES, type RunRuleId } from "./rules.ts";
import type { Side } from "./zone.ts";

/** Something that a rule saw: which, where it ends, and what it is in words. */
export interface Signal {
  /** Place of the newest value of the pattern. */
  readonly index: number;
  readonly rule: RunRuleId | "spread" | "ewma" | "cusum";
  readonly side: Side;
  readonly words: string;
}

const PLACES: Readonly<Record<Side, string>> = {
  above: "above the centre line",
  below: "below the centre line",
  rising: "rising",
  falling: "falling",
  either: "",
};

function wordsOf(rule: RunRuleId, side: Side): string {
  const { words } = RUN_RULES[rule];
  const place = PLACES[side];
  if (place === "") return words;
  return side === "rising" || side === "falling" ? `${words}: ${place}` : `${words}, ${place}`;
}

/**
 * What the run rules see in a stretch of values: one signal for each rule and each place where its pattern ends, so
 * that a run that goes on signals again at each further value. In the order of the places.
 *
 * @param values without a gap and with one centre and sigma; a rule knows nothing of what came before
 */
export function runSignals(
  values: readonly number[],
  { centre, sigma }: CentreAndSigma,
  rules: readonly RunRuleId[],
): Signal[] {
  const sigmas = values.map((value) => (value - centre) / sigma);
  return sigmas.flatMap((_, index) =>
    rules.flatMap((rule) => {
      const side = RUN_RULES[rule].pattern(sigmas, index);
      return side === null ? [] : [{ index, rule, side, words: wordsOf(rule, side) }];
    }),
  );
}
