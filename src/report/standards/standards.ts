import { MODEL_IDS } from "../../grading/models/model.ts";
import { MODELS } from "../../grading/models/table.ts";
import { CHARACTERISTIC_VALUES } from "../../grading/values/table.ts";
import { rulesInForce } from "../../procedure/rules/inForce.ts";
import { type ProcedureRules, resolveRules } from "../../procedure/rules/resolve.ts";
import { cited, type RuleSet } from "../../procedure/rules/ruleSet.ts";
import { RULE_SETS } from "../../procedure/rules/ruleSets.ts";
import type { Product } from "../../record/product.ts";
import { PUBLICATIONS } from "../../series/table.ts";
import {
  BALANCE_STANDARDS,
  CARE_STANDARDS,
  CURVE_STANDARDS,
  DECK_STANDARDS,
  MOTION_STANDARDS,
  RECORD_STANDARDS,
  REFERENCE_STANDARDS,
} from "./plant.ts";
import { CHART_STANDARDS, REPLICATE_STANDARDS, SURENESS_STANDARDS } from "./statistics.ts";
import type { Standard } from "./told.ts";

const ruleTexts = (rules: ProcedureRules): string =>
  rulesInForce(rules)
    .map((rule) => `${rule.text} [${cited(rule)}]`)
    .join("; ");

const named = ({ title, edition }: RuleSet): string => `${title}, ${edition}`;

/** Each rule set with all of its rules; one that has none of its own is not told. */
const ruleRows: readonly Standard[] = RULE_SETS.map((set) => ({
  figure: named(set),
  source: ruleTexts(resolveRules(undefined, { ruleSet: set.id })),
})).filter(({ source }) => source !== "");

/** The rules in force for one product, each with its source: those of its rule set with its own put over them. */
export function rulesFor({ code, method }: Pick<Product, "code" | "method">): Standard {
  const rules = resolveRules(method, method?.procedure);
  return { figure: rules.ruleSet ? named(rules.ruleSet) : code, source: ruleTexts(rules) };
}

const seriesRows: readonly Standard[] = [
  { figure: "which apertures a series has", source: "ISO 565, recalled: check your copy" },
  { figure: "limits of apertures by formula", source: "ISO 3310-1; ASTM E11 (formulas recalled): check your copy" },
  ...PUBLICATIONS.map((source) => ({ figure: "figures seen in", source })),
];

export interface StandardGroup {
  readonly title: string;
  readonly rows: readonly Standard[];
}

/** Where every figure comes from, by what it is about. */
export const STANDARDS = {
  curve: { title: "the curve and its percentiles", rows: CURVE_STANDARDS },
  values: {
    title: "characteristic values",
    rows: CHARACTERISTIC_VALUES.map(({ label, source }) => ({ figure: label, source })),
  },
  models: {
    title: "fitted distributions",
    rows: MODEL_IDS.map((id) => ({ figure: MODELS[id].label, source: MODELS[id].source })),
  },
  procedure: { title: "whether a test is valid", rows: ruleRows },
  sureness: { title: "how sure a result is", rows: SURENESS_STANDARDS },
  replicates: { title: "repeated tests", rows: REPLICATE_STANDARDS },
  charts: { title: "control charts, drifts, capability", rows: CHART_STANDARDS },
  series: { title: "sieve series", rows: seriesRows },
  care: { title: "care of sieves", rows: CARE_STANDARDS },
  reference: { title: "reference materials", rows: REFERENCE_STANDARDS },
  balance: { title: "balance and check weights", rows: BALANCE_STANDARDS },
  deck: { title: "screen decks", rows: DECK_STANDARDS },
  motion: { title: "motion of the shaker", rows: MOTION_STANDARDS },
  record: { title: "the record", rows: RECORD_STANDARDS },
} as const satisfies Record<string, StandardGroup>;

export type StandardId = keyof typeof STANDARDS;
export const STANDARD_IDS = Object.keys(STANDARDS) as readonly StandardId[];
export const standardsOf = (id: StandardId): StandardGroup => STANDARDS[id];
