import { netMassG } from "../../grading/netMass.ts";
import { isAbove } from "../compare.ts";
import { explainGap, type GapExplanation, type TypedMass } from "../loss/explainGap.ts";
import type { ProcedureRules } from "../rules/resolve.ts";
import { cited } from "../rules/ruleSet.ts";
import { massWords, pctWords, sieveWords } from "../wording.ts";
import { met, notAsked, notDone, notMet, type ProcedureCheck, type ProcedureNotice } from "./check.ts";
import type { ProcedureFacts } from "./facts.ts";

/** Wear and a few stuck grains change an empty sieve by less than this; own choice, no source. */
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
  if (limit === null) return unlimited(rules);
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
  const [grams, pct] = [massWords(Math.abs(lossG)), pctWords(Math.abs(lossPct), limit.value)];
  const found = lossG < 0 ? `gain ${grams} (${pct})` : `loss ${grams} (${pct})`;
  if (!isAbove(Math.abs(lossPct), limit.value)) return met("loss", true, `${found}, limit ${limit.value} %`);
  const notice: ProcedureNotice = {
    id: `${name}-high`,
    severity: "invalidates",
    text: `${found} is above the limit of ${limit.value} %`,
    found: pct,
    limit: `${limit.value} %`,
    rule,
    source: cited(limit),
    remedy: [likeliest(gapExplanations(facts, limit.value), facts), strayingEmpty(facts), remedyFor(name)]
      .filter((words) => words !== "")
      .join("; "),
  };
  return notMet("loss", true, notice.text, [notice]);
}

/** A product that names its rules but no limit of loss can never have a valid test, and is told so. */
function unlimited({ ruleSet }: ProcedureRules): ProcedureCheck {
  if (ruleSet === null) return notAsked("loss", "no limit of loss is set for this product");
  const missing = { id: "loss-unlimited", rule: "a limit of loss", source: ruleSet.title };
  const remedy = "set maxLossPct in the product's method";
  return notDone("loss", true, `${ruleSet.title} has no limit of loss here, nor has the product`, {
    ...missing,
    remedy,
  });
}

const remedyFor = (name: "loss" | "gain"): string =>
  name === "loss"
    ? "brush out every sieve and the pan under dust extraction and weigh them again; look for spilled grains; if nothing is found, repeat the test"
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

const MOST_NAMED = 3;

/** "look first for two digits swapped: the 710 um sieve full, 491.73 g instead of 419.73 g"; empty for none. */
function likeliest(explanations: readonly GapExplanation[], facts: ProcedureFacts): string {
  const first = explanations[0];
  if (first === undefined) return "";
  const alike = explanations.filter((e) => e.slip === first.slip && e.usual === first.usual).slice(0, MOST_NAMED);
  const start = facts.washedG === null ? "the charge" : "the dry mass after washing";
  const named = alike.map(({ field, apertureUm = 0, meantG, typedG }) => {
    const place = field === "chargeG" ? start : `${sieveWords(apertureUm)} ${FIELD_WORDS[field]}`;
    return `${place}, ${meantG} g instead of ${typedG} g`;
  });
  return `look first for ${first.slip}: ${named.join(", or ")}`;
}

/** "brush the 710 um sieve and weigh it empty again: it was 1.20 g heavier than usual"; empty for none. */
function strayingEmpty({ grading, usualEmptyG }: ProcedureFacts): string {
  const strays = grading.rows.flatMap(({ apertureUm, emptyG }) => {
    const usualG = usualEmptyG.get(apertureUm);
    return emptyG === null || usualG === undefined ? [] : [{ apertureUm, byG: netMassG(emptyG, usualG) }];
  });
  const worst = strays.toSorted((a, b) => Math.abs(b.byG) - Math.abs(a.byG))[0];
  if (worst === undefined || !isAbove(Math.abs(worst.byG), EMPTY_STRAYS_G)) return "";
  const grams = massWords(Math.abs(worst.byG));
  const how = worst.byG > 0 ? `${grams} heavier than usual` : `${grams} lighter than usual`;
  return `brush ${sieveWords(worst.apertureUm)} and weigh it empty again: it was ${how}`;
}
