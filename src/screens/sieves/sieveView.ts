import type { Condition } from "../../care/conditionOf.ts";
import { apertureLimits } from "../../care/inspection/limits.ts";
import { UNUSED } from "../../care/ledger/ledger.ts";
import { grams, lengthWords } from "../../care/words.ts";
import type { Sieve } from "../../record/sieve.ts";
import { certificateWords, tallyWords, tareOffWords } from "../../report/sieveWords.ts";
import { describeAperture } from "../../series/describe.ts";
import { say } from "../../words/say.ts";
import type { Line } from "../line.ts";
import { conditionSpan } from "./conditionSpan.ts";
import type { SievePlace, WithCare } from "./places.ts";
import { type SieveShown, shownOf } from "./shown.ts";
import { labelled, told } from "./told.ts";

/** What is said where nothing is advised: of a sieve that is kept out, what brings it back. */
function unadvised({ state, registered }: Condition): string {
  if (state !== "out of service") return say`nothing to do`;
  return {
    "in service": say`not to be used: put right what was found, then inspect it anew (i)`,
    cleaning: say`not to be used until it is clean: note the cleaning with its empty mass (c), then return it (r)`,
    quarantine: say`not to be used: inspect it (i), then return it to service (r) or retire it (x)`,
    retired: say`retired: nothing to do`,
  }[registered];
}

/** What the sieve is by itself. */
function itself({ sieve, sets }: SieveShown, columns: number): Line[] {
  const { designations } = describeAperture(sieve.apertureUm);
  const frame = [sieve.frameMm, sieve.frameHeightMm].filter((mm) => mm !== undefined).join(" x ");
  const what = [
    ...(designations.length > 1 ? [designations.slice(1).join(", ")] : []),
    sieve.cloth ?? "woven wire",
    ...(frame === "" ? [] : [`frame ${frame} mm`]),
    ...(sieve.standard === undefined ? [] : [sieve.standard]),
    ...(sieve.location === undefined ? [] : [say`kept at ${sieve.location}`]),
    sets.length === 0 ? say`in no set` : `set ${sets.map(({ code }) => code).join(", ")}`,
    ...(sieve.firstUse === undefined ? [] : [say`first used ${sieve.firstUse}`]),
  ];
  const { certificate } = sieve;
  return [
    ...labelled("sieve", what.join("; "), columns),
    ...labelled("certificate", certificate === undefined ? "none" : certificateWords(certificate), columns),
  ];
}

function limitLines({ apertureUm, cloth }: Sieve, columns: number): Line[] {
  const limits = apertureLimits(apertureUm, cloth ?? "woven wire");
  if ("reason" in limits) return labelled("limits", limits.reason, columns, "dim");
  const { meanUm, maxUm, figures, founded } = limits;
  const words = say`mean within Y ${lengthWords(meanUm)} either way, none more than X ${lengthWords(maxUm)} above`;
  return labelled("limits", `${words} (${figures}; ${founded})`, columns, "dim");
}

function usedLines({ life, condition, readabilityG }: SieveShown, columns: number): Line[] {
  const { since } = condition.counts;
  const from = since === null ? "" : ` since ${since}`;
  const ever = life === null ? UNUSED : life.ever;
  const due = condition.due.onDay === null ? condition.due.text : `on ${condition.due.onDay}; ${condition.due.text}`;
  const last = life?.weighings.at(-1);
  const level = condition.tare?.levelG ?? null;
  const empty = [
    last === undefined ? say`never weighed empty` : `${grams(last.emptyG, readabilityG)} on ${last.at.slice(0, 10)}`,
    ...(level === null
      ? [say`its own level is not known yet`]
      : [say`clean ${grams(level, readabilityG)}, off by ${tareOffWords(condition, readabilityG)}`]),
  ];
  return [
    ...labelled("used", `${tallyWords(condition.counts)}${from}`, columns),
    ...labelled(say`in all`, tallyWords(ever), columns, "dim"),
    ...labelled("inspection", due, columns),
    ...labelled("empty", empty.join("; "), columns),
  ];
}

/** The sieve, its state and what to do, what it was used for, what it weighs. */
export function sieveLines(place: WithCare<SievePlace>, columns: number): readonly Line[] {
  const shown = shownOf(place);
  if (shown === null) return told("reading ...", columns, "dim");
  const { condition, sieve } = shown;
  const state = conditionSpan(condition);
  const advice =
    condition.advice.length === 0
      ? told(unadvised(condition), columns, "dim")
      : condition.advice.flatMap((text) => told(`! ${text}`, columns, "warning"));
  return [
    ...labelled("state", `${state.text}  ${condition.text}`, columns, state.role),
    ...advice,
    [],
    ...usedLines(shown, columns),
    ...itself(shown, columns),
    ...limitLines(sieve, columns),
  ];
}
