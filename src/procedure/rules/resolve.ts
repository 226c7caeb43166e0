import type { EndPointCriterion, Frame, ProcedureChoice, Severity } from "../../record/procedure.ts";
import type { Method } from "../../record/product.ts";
import type { ChargeRule, Figure, Founded, LoadRule, ReadabilityRule, RuleSet } from "./ruleSet.ts";
import { ruleSetOf } from "./ruleSets.ts";

/** Everything that one product's tests are checked by: the method's rules with the product's own put over them. */
export interface ProcedureRules {
  /** Null: the product names no rule set; only its own loss limit and charge range apply. */
  readonly ruleSet: RuleSet | null;
  readonly maxLossPct: Figure | null;
  readonly charge: {
    readonly rule: ChargeRule | null;
    readonly ownMinG: number | null;
    readonly ownMaxG: number | null;
    readonly largestMm: number | undefined;
    readonly outside: Severity;
  };
  readonly load: { readonly rule: LoadRule | null; readonly frame: Frame | undefined; readonly overload: Severity };
  readonly endPoint: {
    readonly criterion: (EndPointCriterion & Founded) | null;
    readonly required: boolean;
    readonly notReached: Severity;
  };
  readonly balance: {
    readonly required: boolean;
    readonly interval: "shift" | "day" | { readonly hours: number };
    readonly readability: ReadabilityRule | null;
  };
  readonly program: {
    readonly required: boolean;
    readonly deviation: Severity;
    /** Shaken for less time than the program says, the end point not proven. */
    readonly cutShort: Severity;
  };
  readonly moisture: { readonly maxPct: number | null; readonly required: boolean; readonly above: Severity };
  readonly washed: boolean;
  readonly sieves: { readonly required: boolean };
}

const OWN: Founded = { standing: "own", source: "the product" };

/**
 * The rules in force for a product: its own figure where it gives one (`maxLossPct`, `chargeG`, and all of its
 * procedure choice), else that of the rule set that it names. Without a named rule set no method's figure applies.
 * Where the product says no word, an overload, an end point not reached, a loss beyond the limit and shaking cut short
 * without a proven end point invalidate; a charge out of range, a run otherwise off its program and too much moisture
 * warn; only the loss check is required, and the balance is due once a shift.
 *
 * @param method the product's method; undefined for a product without one
 * @param choice the product's choice of procedure; undefined where it makes none
 */
export function resolveRules(method: Method | undefined, choice: ProcedureChoice | undefined): ProcedureRules {
  const ruleSet = choice === undefined ? null : ruleSetOf(choice.ruleSet);
  const ownLoss = method?.maxLossPct;
  return {
    ruleSet,
    maxLossPct: ownLoss === undefined ? (ruleSet?.maxLossPct ?? null) : { value: ownLoss, ...OWN },
    charge: chargeRules(method?.chargeG, choice?.charge, ruleSet),
    load: {
      rule: loadRule(choice?.load, ruleSet),
      frame: choice?.frameMm,
      overload: choice?.load?.overload ?? "invalidates",
    },
    endPoint: endPointRules(choice?.endPoint, ruleSet),
    balance: balanceRules(choice?.balance, ruleSet),
    program: programRules(choice?.program),
    moisture: moistureRules(choice?.moisture),
    washed: method?.washed ?? false,
    sieves: { required: choice?.sieves?.required ?? false },
  };
}

function chargeRules(own: Method["chargeG"], choice: ProcedureChoice["charge"], ruleSet: RuleSet | null) {
  return {
    rule: ruleSet?.charge ?? null,
    ownMinG: own?.min ?? null,
    ownMaxG: own?.max ?? null,
    largestMm: choice?.largestParticleMm,
    outside: choice?.outside ?? ("warning" as const),
  };
}

function loadRule(load: ProcedureChoice["load"], ruleSet: RuleSet | null): LoadRule | null {
  if (load?.rule === "none") return null;
  if (load?.rule === "own") return { kind: "own", limitG: load.limitG ?? null, perSieve: load.perSieve ?? [], ...OWN };
  if (load?.rule === "area") return ruleSetOf("astm-c136-2020").load;
  if (load?.rule === "root-of-aperture") return ruleSetOf("en-933-1-2012").load;
  return ruleSet?.load ?? null;
}

function endPointRules(choice: ProcedureChoice["endPoint"], ruleSet: RuleSet | null) {
  return {
    criterion: choice?.criterion ? { ...choice.criterion, ...OWN } : (ruleSet?.endPoint ?? null),
    required: choice?.required ?? false,
    notReached: choice?.notReached ?? ("invalidates" as const),
  };
}

function balanceRules(choice: ProcedureChoice["balance"], ruleSet: RuleSet | null) {
  const ownPct = choice?.readabilityPct;
  return {
    required: choice?.required ?? false,
    interval: choice?.interval ?? ("shift" as const),
    readability: ownPct === undefined ? (ruleSet?.readability ?? null) : { stepG: null, pctOfCharge: ownPct, ...OWN },
  };
}

function programRules(choice: ProcedureChoice["program"]) {
  return {
    required: choice?.required ?? false,
    deviation: choice?.deviation ?? ("warning" as const),
    cutShort: choice?.deviation ?? ("invalidates" as const),
  };
}

function moistureRules(choice: ProcedureChoice["moisture"]) {
  return {
    maxPct: choice?.maxPct ?? null,
    required: choice?.required ?? false,
    above: choice?.above ?? ("warning" as const),
  };
}
