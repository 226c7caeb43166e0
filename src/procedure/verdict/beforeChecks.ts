import { hasPassed } from "../balance/balanceState.ts";
import { isAbove } from "../compare.ts";
import type { ProcedureRules } from "../rules/resolve.ts";
import { washLossPct } from "../wash/wash.ts";
import { listed, massWords, pctWords, sieveWords } from "../wording.ts";
import { met, notAsked, notDone, notMet, type ProcedureCheck, type ProcedureNotice } from "./check.ts";
import type { ProcedureFacts, SieveCondition } from "./facts.ts";

const PRACTICE = "common practice, no source";

/** Was the balance checked, and did it pass, when this test was weighed? */
export function balanceCheck(facts: ProcedureFacts, rules: ProcedureRules): ProcedureCheck {
  const { required, interval } = rules.balance;
  const period = typeof interval === "string" ? `once a ${interval}` : `every ${interval.hours} h`;
  const rule = `balance checked ${period}`;
  const { balance } = facts;
  if (balance?.state === "checked") return met("balance", required, balance.text);
  const remedy = "check the balance with its weights: level, clean, zero, then each weight";
  if (balance?.last && !hasPassed(balance.last)) {
    const since = balance.suspectSince === null ? "" : `; results since ${balance.suspectSince} are suspect as well`;
    const again = "take it out of use, have it put right and checked, then weigh again";
    const severity = "invalidates" as const;
    const notice = { id: "balance-failed", severity, text: balance.text + since, found: "failed", limit: null };
    return notMet("balance", required, balance.text, [{ ...notice, rule, source: PRACTICE, remedy: again }]);
  }
  if (balance === null && !required) return notAsked("balance", "no balance check is asked for");
  const text = balance?.text ?? "nothing is known of the balance's checks";
  return notDone("balance", required, text, {
    id: `balance-${balance?.state ?? "unchecked"}`,
    rule,
    source: PRACTICE,
    remedy,
  });
}

/** Sieves of the stack of whose condition nothing is known, in words; null when all are known. */
function unknownWords({ grading, sieves }: ProcedureFacts): string | null {
  const known = new Set(sieves.map(({ apertureUm }) => apertureUm));
  const unknown = grading.rows.filter(({ apertureUm }) => apertureUm > 0 && !known.has(apertureUm));
  if (sieves.length === 0) return "nothing is known of the sieves' condition";
  if (unknown.length === 0) return null;
  return `nothing is known of the condition of ${listed(unknown.map(({ apertureUm }) => sieveWords(apertureUm)))}`;
}

/** Are the sieves of the stack fit for use? Where the product insists on that, each of them must be known. */
export function sievesCheck(facts: ProcedureFacts, rules: ProcedureRules): ProcedureCheck {
  const { required } = rules.sieves;
  if (facts.sieves.length === 0 && !required) return notAsked("sieves", "nothing is noted of the sieves");
  const notices = facts.sieves
    .filter((sieve) => sieve.state !== "fit")
    .map((sieve) => conditionNotice(sieve, required));
  const bad = facts.sieves.filter((sieve) => sieve.state === "out of service" || sieve.state === "overdue");
  if (bad.length > 0)
    return notMet("sieves", required, `not fit: ${listed(bad.map((s) => sieveWords(s.apertureUm)))}`, notices);
  const unknown = unknownWords(facts);
  if (!required || unknown === null) return { ...met("sieves", required, "the sieves are fit for use"), notices };
  const missing = { id: "sieves-unknown", rule: "sieves inspected", source: PRACTICE };
  const remedy = "choose the sieves by serial number, or inspect them";
  const done = notDone("sieves", true, unknown, { ...missing, remedy });
  return { ...done, notices: [...done.notices, ...notices] };
}

/** What is out of service proves nothing; whether one that is overdue does is for the product to say. */
function conditionNotice(sieve: SieveCondition, required: boolean): ProcedureNotice {
  const name =
    sieve.serial === undefined ? sieveWords(sieve.apertureUm) : `${sieveWords(sieve.apertureUm)} (${sieve.serial})`;
  const overdue = required ? "invalidates" : "warning";
  const severity = ({ fit: "note", due: "note", overdue, "out of service": "invalidates" } as const)[sieve.state];
  const remedy =
    sieve.state === "out of service"
      ? "put another sieve of this aperture in the stack and repeat the test"
      : "hold the sieve to the light, clean it and record its inspection";
  const text = `${name} is ${sieve.state}: ${sieve.text}`;
  const id = `sieve-${sieve.state.replaceAll(" ", "-")}`;
  return { id, severity, text, found: sieve.state, limit: null, rule: "sieves fit for use", source: PRACTICE, remedy };
}

/** Was the portion dry enough? */
export function moistureCheck(facts: ProcedureFacts, rules: ProcedureRules): ProcedureCheck {
  const { maxPct, required, above } = rules.moisture;
  if (maxPct === null) return notAsked("moisture", "no limit of moisture is set for this product");
  const rule = `moisture at most ${maxPct} %`;
  const source = "the product";
  if (facts.moisturePct === null) {
    const remedy = "dry a portion as the site's rules allow to constant mass, and weigh it before and after";
    return notDone("moisture", required, "the moisture was not measured", {
      id: "moisture-unknown",
      rule,
      source,
      remedy,
    });
  }
  const found = pctWords(facts.moisturePct, maxPct);
  if (!isAbove(facts.moisturePct, maxPct)) return met("moisture", required, `moisture ${found}, limit ${maxPct} %`);
  const text = `moisture ${found} is above ${maxPct} %: damp fines cling and count as coarse`;
  const remedy = "dry the portion as the site's rules allow, let it cool and repeat the test";
  const notice = { id: "moisture-high", severity: above, text, found, limit: `${maxPct} %`, rule, source, remedy };
  return notMet("moisture", required, text, [notice]);
}

/** Was the sample washed where the product wants it, with both dry masses weighed? */
export function washingCheck(facts: ProcedureFacts, rules: ProcedureRules): ProcedureCheck {
  const { chargeG } = facts.grading;
  const { washedG } = facts;
  if (!rules.washed && washedG === null) return notAsked("washing", "the product is not washed");
  const missing = { rule: "dry mass before and after washing", source: "the product" };
  if (chargeG === null || washedG === null)
    return notDone("washing", rules.washed, "not both dry masses, before and after washing, were weighed", {
      id: "wash-unknown",
      ...missing,
      remedy: "wash the sample, dry it to constant mass and weigh it before it goes on the stack",
    });
  const loss = washLossPct(chargeG, washedG);
  if (loss.determinable)
    return met("washing", rules.washed, `washing took ${massWords(chargeG - washedG)} (${pctWords(loss.value)})`);
  const notice = {
    id: "wash-gain",
    severity: "invalidates",
    text: loss.reason,
    found: massWords(washedG),
    limit: massWords(chargeG),
  } as const;
  return notMet("washing", rules.washed, loss.reason, [
    { ...notice, ...missing, remedy: "dry the washed sample to constant mass and weigh it again" },
  ]);
}
