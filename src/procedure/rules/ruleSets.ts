import type { RuleSetId } from "../../record/procedure.ts";
import { aashtoT27, astmC136, astmC136Older, en9331 } from "./aggregates.ts";
import type { RuleSet } from "./ruleSet.ts";
import { afsSand, asaeS319, astmD1921, iso2591, iso11125, ownRules, usp786 } from "./trades.ts";

/** Every rule set that a product can name; what stands in no source seen says so in its `standing`. */
export const RULE_SETS: readonly RuleSet[] = [
  ownRules,
  astmC136,
  astmC136Older,
  aashtoT27,
  en9331,
  iso2591,
  asaeS319,
  usp786,
  astmD1921,
  iso11125,
  afsSand,
];

/** The rule set of that name. */
export const ruleSetOf = (id: RuleSetId): RuleSet => RULE_SETS.find((set) => set.id === id) ?? ownRules;
