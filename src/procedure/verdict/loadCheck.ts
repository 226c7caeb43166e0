import { heaviest, loadsOf, type SieveLoad } from "../load/loads.ts";
import { portionsNeeded } from "../load/portions.ts";
import type { ProcedureRules } from "../rules/resolve.ts";
import { cited } from "../rules/ruleSet.ts";
import { listed, massWords, shareWords, sieveWords } from "../wording.ts";
import { met, notAsked, notDone, notMet, type ProcedureCheck, type ProcedureNotice } from "./check.ts";
import type { ProcedureFacts } from "./facts.ts";

/** Did any sieve hold more than it may, so that grains could not reach its apertures? */
export function loadCheck(facts: ProcedureFacts, rules: ProcedureRules): ProcedureCheck {
  const { rule, frame } = rules.load;
  if (rule === null) return notAsked("load", "no limit of load is set for this product");
  const held = facts.grading.rows.map(({ apertureUm, netG }) => ({
    apertureUm,
    netG: facts.mostHeldG.get(apertureUm) ?? netG,
  }));
  const loads = loadsOf(held, rule, frame);
  const worst = heaviest(loads);
  if (worst === undefined) {
    const reason = loads.find((load) => !load.limit.determinable)?.limit;
    const text = `no load can be judged: ${reason && !reason.determinable ? reason.reason : "there is no sieve"}`;
    const remedy = "give the frame of the sieves, or limits in g, in the product's procedure";
    return notDone("load", false, text, {
      id: "load-unknown",
      rule: "load on each sieve",
      source: cited(rule),
      remedy,
    });
  }
  const over = loads.filter((load) => load.overloaded);
  if (over.length === 0)
    return met("load", false, `heaviest load ${shareOf(worst)} of its limit, ${sieveWords(worst.apertureUm)}`);
  const notices = over.map((load) => overload(load, rules, cited(rule), remedyFor(over)));
  return notMet("load", false, `${listed(over.map((load) => sieveWords(load.apertureUm)))} held too much`, notices);
}

const shareOf = (load: SieveLoad): string => (load.ratio.determinable ? shareWords(load.ratio.value) : "-");
const limitOf = (load: SieveLoad): number => (load.limit.determinable ? load.limit.value : 0);

function overload(load: SieveLoad, rules: ProcedureRules, source: string, remedy: string): ProcedureNotice {
  const found = massWords(load.netG, limitOf(load));
  const limit = massWords(limitOf(load));
  const text = `${sieveWords(load.apertureUm)} held ${found}, ${shareOf(load)} of the ${limit} that it may hold`;
  return {
    id: "sieve-overloaded",
    severity: rules.load.overload,
    text,
    found,
    limit,
    rule: `load at most ${limit}`,
    source,
    remedy,
  };
}

function remedyFor(over: readonly SieveLoad[]): string {
  const portions = portionsNeeded(
    over.map((load) => load.netG),
    over.map(limitOf),
  );
  const count = portions.determinable ? (NUMBER_WORDS[portions.value] ?? `${portions.value}`) : "smaller";
  return `sieve in ${count} portions and add what each sieve held, or put a relief sieve above`;
}

const NUMBER_WORDS: Readonly<Record<number, string>> = { 2: "two", 3: "three", 4: "four", 5: "five", 6: "six" };
