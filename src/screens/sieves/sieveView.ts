import type { Condition } from "../../care/conditionOf.ts";
import { apertureLimits } from "../../care/inspection/limits.ts";
import { UNUSED } from "../../care/ledger/ledger.ts";
import { grams, lengthWords } from "../../care/words.ts";
import type { Sieve } from "../../record/sieve.ts";
import { tallyWords, tareOffWords } from "../../report/sieveWords.ts";
import { describeAperture } from "../../series/describe.ts";
import { dayText, figure } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import type { Line } from "../line.ts";
import { certificateShown } from "./certificateView.ts";
import { conditionSpan } from "./conditionSpan.ts";
import { nameShown } from "./names.ts";
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
    nameShown(sieve.cloth ?? "woven wire"),
    ...(frame === "" ? [] : [say`frame ${figure(frame)} mm`]),
    ...(sieve.standard === undefined ? [] : [sieve.standard]),
    ...(sieve.location === undefined ? [] : [say`kept at ${sieve.location}`]),
    sets.length === 0 ? say`in no set` : say`set ${sets.map(({ code }) => code).join(", ")}`,
    ...(sieve.firstUse === undefined ? [] : [say`first used ${dayText(sieve.firstUse)}`]),
  ];
  const { certificate } = sieve;
  return [
    ...labelled(say`sieve`, what.join("; "), columns),
    ...labelled(say`certificate`, certificate === undefined ? say`none` : certificateShown(certificate), columns),
  ];
}

function limitLines({ apertureUm, cloth }: Sieve, columns: number): Line[] {
  const limits = apertureLimits(apertureUm, cloth ?? "woven wire");
  if ("reason" in limits) return labelled(say`limits`, spoken(limits.reason), columns, "dim");
  const { meanUm, maxUm, figures, founded } = limits;
  const words = say`mean within Y ${figure(lengthWords(meanUm))} either way, none more than X ${figure(lengthWords(maxUm))} above`;
  return labelled(say`limits`, `${words} (${spoken(figures)}; ${spoken(founded)})`, columns, "dim");
}

function usedLines({ life, condition, readabilityG }: SieveShown, columns: number): Line[] {
  const { since } = condition.counts;
  const tally = spoken(tallyWords(condition.counts));
  const ever = life === null ? UNUSED : life.ever;
  const { onDay, text } = condition.due;
  const due = onDay === null ? spoken(text) : say`on ${dayText(onDay)}; ${spoken(text)}`;
  const last = life?.weighings.at(-1);
  const level = condition.tare?.levelG ?? null;
  const empty = [
    last === undefined
      ? say`never weighed empty`
      : say`${figure(grams(last.emptyG, readabilityG))} on ${dayText(last.at)}`,
    ...(level === null
      ? [say`its own level is not known yet`]
      : [say`clean ${figure(grams(level, readabilityG))}, off by ${figure(tareOffWords(condition, readabilityG))}`]),
  ];
  return [
    ...labelled(say`used`, since === null ? tally : `${tally} ${say`since ${dayText(since)}`}`, columns),
    ...labelled(say`in all`, spoken(tallyWords(ever)), columns, "dim"),
    ...labelled(say`inspection`, due, columns),
    ...labelled(say`empty`, empty.join("; "), columns),
  ];
}

/** The sieve, its state and what to do, what it was used for, what it weighs. */
export function sieveLines(place: WithCare<SievePlace>, columns: number): readonly Line[] {
  const shown = shownOf(place);
  if (shown === null) return told(say`reading ...`, columns, "dim");
  const { condition, sieve } = shown;
  const state = conditionSpan(condition);
  const advice =
    condition.advice.length === 0
      ? told(unadvised(condition), columns, "dim")
      : condition.advice.flatMap((text) => told(`! ${spoken(text)}`, columns, "warning"));
  return [
    ...labelled(say`state`, `${state.text}  ${spoken(condition.text)}`, columns, state.role),
    ...advice,
    [],
    ...usedLines(shown, columns),
    ...itself(shown, columns),
    ...limitLines(sieve, columns),
  ];
}
