import { isAbove } from "../compare.ts";
import { explainGap, type GapExplanation, type TypedMass } from "../loss/explainGap.ts";
import type { ProcedureRules } from "../rules/resolve.ts";
import { cited } from "../rules/ruleSet.ts";
import { massWords, pctWords, sieveWords } from "../wording.ts";
import { met, notAsked, notDone, notMet, type ProcedureCheck, type ProcedureNotice } from "./check.ts";
import type { ProcedureFacts } from "./facts.ts";

const EMPTY_STRAYS_G = 0.5;

/**
 * Do charge and recovered mass meet? Loss (or gain) in % of the charge, for a washed test of the dry mass after
 * washing, against the product's limit or that of its rule set; the limit itself is allowed. A gain is as wrong as
 * a loss.
 *
 * @source the limit's own: ASTM C136 0.3 % (seen), EN 933-1 1 %, USP 786 5 %, ASTM D1921 2 % (recalled)
 */
export function lossCheck(facts: ProcedureFacts, rules: ProcedureRules): ProcedureCheck {
  const { lossG, lossPct } = facts.grading;
  const limit = rules.maxLossPct;
  if (limit === null) return notAsked("loss", "no limit of loss is set for this product");
  const rule = `loss or gain at most ${limit.value} %`;
  const missing = { id: "loss-unknown", rule, source: cited(limit) };
  if (facts.panAssumed)
    return notDone("loss", true, "the pan was not weighed, so no loss can be told", {
      ...missing,
      remedy: "weigh the pan",
    });
  if (lossG === null || lossPct === null)
    return notDone("loss", true, "the charge was not weighed, so no loss can be told", {
      ...missing,
      remedy: "next time weigh the charge before it goes on the stack",
    });
  const name = lossG < 0 ? "gain" : "loss";
  const found = `${name} ${massWords(Math.abs(lossG))} (${pctWords(Math.abs(lossPct), limit.value)})`;
  if (!isAbove(Math.abs(lossPct), limit.value)) return met("loss", true, `${found}, limit ${limit.value} %`);
  const notice: ProcedureNotice = {
    id: `${name}-high`,
    severity: "invalidates",
    text: `${found} is above the limit of ${limit.value} %`,
    found: pctWords(Math.abs(lossPct), limit.value),
    limit: `${limit.value} %`,
    rule,
    source: cited(limit),
    remedy: [likeliest(gapExplanations(facts, limit.value), facts), remedyFor(name)]
      .filter((words) => words !== "")
      .join("; "),
  };
  return notMet("loss", true, notice.text, [notice]);
}

const remedyFor = (name: "loss" | "gain"): string =>
  name === "loss"
    ? "brush out every sieve and the pan and weigh them full again; look for spilled grains; if nothing is found, repeat the test"
    : "weigh each sieve and the pan clean and empty again: grains of an earlier test may have come loose; else repeat the test";

/** Single typing slips that would explain a loss or gain beyond `limitPct`, likeliest first; see `explainGap`. */
export function gapExplanations(facts: ProcedureFacts, limitPct: number): GapExplanation[] {
  const startG = facts.washedG ?? facts.grading.chargeG;
  if (startG === null) return [];
  const masses: TypedMass[] = [
    { field: "chargeG", typedG: startG },
    ...facts.grading.rows.flatMap((row) => typed(row, facts)),
  ];
  return explainGap(masses, (limitPct * startG) / 100);
}

function typed(row: ProcedureFacts["grading"]["rows"][number], facts: ProcedureFacts): TypedMass[] {
  const { apertureUm, emptyG, fullG, netG } = row;
  if (emptyG === null || fullG === null) return [{ field: "netG", apertureUm, typedG: netG }];
  const usualG = facts.usualEmptyG.get(apertureUm);
  const usual = usualG === undefined ? undefined : { massG: usualG, withinG: EMPTY_STRAYS_G };
  return [
    { field: "emptyG", apertureUm, typedG: emptyG, usual },
    { field: "fullG", apertureUm, typedG: fullG },
  ];
}

const FIELD_WORDS = { emptyG: "empty", fullG: "full", netG: "net" } as const;

/** "look at the 710 um sieve full: 512.4 g for 521.4 g (two digits swapped) would leave 0.2 g"; empty for none. */
function likeliest([first]: readonly GapExplanation[], facts: ProcedureFacts): string {
  if (first === undefined) return "";
  const start = facts.washedG === null ? "the charge" : "the dry mass after washing";
  const { field, apertureUm = 0, meantG, typedG, slip, lossLeftG } = first;
  const place = field === "chargeG" ? start : `${sieveWords(apertureUm)} ${FIELD_WORDS[field]}`;
  return `look at ${place} first: ${meantG} g instead of ${typedG} g (${slip}) would leave ${massWords(lossLeftG)}`;
}
