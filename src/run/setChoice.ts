import { sievesOf } from "../care/register/register.ts";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Draft } from "../record/draft.ts";
import type { Stack } from "../record/sieve.ts";
import { standing, type TrailItem } from "../record/test.ts";
import { beyondMeansWords } from "./beyondMeans.ts";
import { pick } from "./pick.ts";
import { handsFree, type Run } from "./run.ts";
import {
  meansLackingWords,
  NO_SET,
  setInHand,
  setsOf,
  sievesNoted,
  unfitWords,
  weighedAsOther,
  withSerial,
  withSet,
} from "./sieves.ts";
import { withItem } from "./trail.ts";

function withChoice(draft: Draft, set: Stack | null, run: Run, at: string): Draft {
  const before = standing(draft.trail).findLast(({ field }) => field === "set");
  const from = typeof before?.to === "string" ? before.to : null;
  return withItem(withSet(draft, set, run.setting.care), { at, field: "set", from, to: set?.code ?? NO_SET });
}

/** What is to be said of the sieves just taken, in words; it holds nothing up. */
export function sievesTold(draft: Draft): string | null {
  const ofCurve = meansLackingWords(draft) ?? beyondMeansWords(draft);
  const words = [unfitWords(draft), ofCurve].filter((text) => text !== null);
  return words.length === 0 ? null : words.join("; ");
}

/** A set taken by a scan, and that it was read: every row has its serial, the hands stay where they are. */
export function chosenSet(run: Run, set: Stack, at: string): Run {
  const draft = withChoice(run.draft, set, run, at);
  return { ...handsFree(run), draft, message: sievesTold(draft), note: `set ${set.code} is taken` };
}

/** Why a set is not the one whose sieves were weighed empty; null when none of them was, or it is. */
export function otherSetWeighed({ draft, setting }: Run, set: Stack): string | null {
  const sieves = setting.care === undefined ? [] : sievesOf(setting.care.register, set);
  const whys = sieves.flatMap(({ apertureUm, serial }) => {
    const row = draft.weighings.find((w) => w.apertureUm === apertureUm);
    return (row && weighedAsOther(row, serial)) ?? [];
  });
  return whys[0] ?? null;
}

/** A set taken at its field, where masses of other sieves stand doubted once. */
function setTaken(run: Run, set: Stack | null, at: string): Outcome<Draft> {
  const why = set === null ? null : otherSetWeighed(run, set);
  if (why === null || run.message?.startsWith(why)) return accepted(withChoice(run.draft, set, run, at));
  return refused(`${why}; Enter once more takes the set all the same`);
}

/**
 * Hands that come to the field of the set by Enter pass it by where one was chosen before. Where none was, the one that the
 * product was sieved with last is taken on the way, as long as nothing is to be said of its sieves and no masses of others
 * stand there.
 *
 * @returns null where it is to be asked for
 */
export function setPassed(run: Run, at: string): Run | null {
  if (standing(run.draft.trail).some(({ field }) => field === "set")) return { ...run, at: run.at + 1 };
  const set = setInHand(run);
  const isUsual = set !== null && set.code === run.setting.care?.lastSets.get(run.draft.product.code);
  if (!isUsual || otherSetWeighed(run, set) !== null) return null;
  const draft = withChoice(run.draft, set, run, at);
  if (sievesTold(draft) !== null) return null;
  return { ...run, draft, at: run.at + 1, note: `set ${set.code} is taken, as last time; Up leads to it` };
}

/** The set field of the set-out page: a number of the list, a code, its beginning, "none"; empty takes what stands there. */
export function setAccepted(run: Run, at: string): Outcome<Draft> {
  const { typed } = run;
  if (typed === "") return setTaken(run, setInHand(run), at);
  const sets = setsOf(run);
  const code = pick(typed, [...sets.map((set) => set.code), NO_SET], "set");
  if (!code.ok) return code;
  const set = sets.find((one) => one.code === code.value) ?? null;
  if (set === null && code.value !== NO_SET) return refused(`set ${code.value} is not registered any more`);
  return setTaken(run, set, at);
}

/** The draft as it was before a set was chosen, or another sieve put in a row, which has been taken back. */
export function sieveBack(draft: Draft, { field, from, apertureUm }: TrailItem, run: Run): Draft {
  const { care } = run.setting;
  if (field === "set") return withSet(draft, setsOf(run).find(({ code }) => code === from) ?? null, care);
  return sievesNoted(withSerial(draft, apertureUm ?? 0, typeof from === "string" ? from : null), care);
}
