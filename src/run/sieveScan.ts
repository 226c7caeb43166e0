import { type Register, sieveOf } from "../care/register/register.ts";
import type { Draft } from "../record/draft.ts";
import type { Stack } from "../record/sieve.ts";
import { apertureText } from "../series/apertureText.ts";
import { beyondMeansWords } from "./beyondMeans.ts";
import { handsFree, type Run, refuse } from "./run.ts";
import { chosenSet, otherSetWeighed } from "./setChoice.ts";
import {
  conditionOfSerial,
  meansLackingWords,
  outOfServiceWords,
  setsOf,
  sievesNoted,
  weighedAsOther,
  withSerial,
} from "./sieves.ts";
import { withItem } from "./trail.ts";

const same = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

const rowName = (apertureUm: number): string =>
  apertureUm === 0 ? "the pan" : `the ${apertureText(apertureUm)} sieve`;

const curveDoubt = (draft: Draft, apertureUm: number): string | null =>
  meansLackingWords(draft, apertureUm) ?? beyondMeansWords(draft, apertureUm);

/** A serial taken for the row in hand: it stands there, and that it was scanned stands on the trail. */
function confirmed(run: Run, serial: string, at: string, warned: string | null): Run {
  const row = run.draft.weighings[run.at];
  if (row === undefined) return run;
  const former = row.serial ?? null;
  const item = { at, field: "serial", apertureUm: row.apertureUm, from: former, to: serial } as const;
  const draft = withItem(sievesNoted(withSerial(run.draft, row.apertureUm, serial), run.setting.care), {
    ...item,
    ...(warned === null ? {} : { warned: warned.slice(0, 400) }),
  });
  const instead = former === null || former === serial ? "" : `, instead of ${former}`;
  const name = `${apertureText(row.apertureUm)} ${serial}`;
  const free = { ...handsFree(run), draft };
  return warned === null
    ? { ...free, message: curveDoubt(draft, row.apertureUm), note: `${name} is in hand${instead}` }
    : { ...free, message: `${name} is taken all the same: ${warned}` };
}

/** Why the sieve in hand is not the one to weigh, and whether a second scan may take it all the same. */
function wrongSieve(run: Run, serial: string): { readonly why: string; readonly final: boolean } | null {
  const { draft, at, setting } = run;
  const sieve = setting.care && sieveOf(setting.care.register, serial);
  const row = draft.weighings[at];
  if (!sieve || !row) return null;
  if (sieve.apertureUm !== row.apertureUm) {
    const its = draft.weighings.some((w) => w.apertureUm === sieve.apertureUm);
    const where = its ? "Up and Down move to its row" : "it is not of this stack";
    const why = `${serial} is ${rowName(sieve.apertureUm)}, ${rowName(row.apertureUm)} is to be weighed: ${where}`;
    const out = outOfServiceWords(setting.care, serial);
    return { why: out === null ? why : `${why}; ${out}`, final: true };
  }
  const condition = conditionOfSerial(setting.care, serial);
  if (condition?.state === "out of service")
    return { why: `${serial} is out of service, ${condition.text}: take another`, final: false };
  const other = weighedAsOther(row, serial);
  return other === null ? null : { why: other, final: false };
}

function sieveScanned(run: Run, serial: string, at: string): Run {
  const wrong = wrongSieve(run, serial);
  if (wrong === null) return confirmed(run, serial, at, null);
  if (wrong.final) return refuse({ ...run, typed: "" }, wrong.why);
  if (run.message?.startsWith(wrong.why)) return confirmed(run, serial, at, wrong.why);
  return onceMore(run, wrong.why);
}

const onceMore = (run: Run, why: string): Run =>
  refuse({ ...run, typed: "" }, `${why}; scanned again it is taken all the same`);

/** A set that is scanned while masses of other sieves stand in the rows is doubted once. */
function setScanned(run: Run, set: Stack, at: string): Run {
  const why = otherSetWeighed(run, set);
  return why === null || run.message?.startsWith(why) ? chosenSet(run, set, at) : onceMore(run, why);
}

/** On the set-out page a sieve stands for the set it belongs to. */
function setNamed(run: Run, register: Register, name: string, at: string): Run {
  const set = register.sets.find(({ code }) => same(code, name));
  const fitting = setsOf(run);
  const named = set === undefined ? fitting.filter((one) => one.serials.some((serial) => same(serial, name))) : [set];
  const [only, other] = named;
  if (only === undefined || other !== undefined)
    return refuse({ ...run, typed: "" }, `${name} is a sieve: scan it when it is weighed, or choose the set`);
  if (!fitting.some(({ code }) => code === only.code))
    return refuse({ ...run, typed: "" }, `set ${only.code} is not the stack of ${run.draft.product.code}`);
  return setScanned(run, only, at);
}

/**
 * What a scan says where it names a registered sieve or set: a set fills the serials of all rows; a sieve on a weighing
 * row confirms that the right one is in hand, and a wrong one is told at once. A serial of digits alone is taken for a mass
 * where it could be one.
 *
 * @param known that it is a sieve is known, so that digits alone are one
 * @returns null where it names neither, so that it is an entry like any other
 */
export function sieveByScan(run: Run, scanned: string, at: string, known?: "by its prefix"): Run | null {
  const { care, balance } = run.setting;
  const name = scanned.trim();
  const isMass = known === undefined && Number(name.replace(",", ".")) <= balance.capacityG;
  if (care === undefined || name === "" || isMass) return null;
  const { register } = care;
  const sieve = register.sieves.find(({ serial }) => same(serial, name));
  const isSet = register.sets.some(({ code }) => same(code, name));
  const { stage } = run.draft;
  if (sieve === undefined && !isSet) return null;
  if (stage !== "set out" && stage !== "weigh empty" && stage !== "weigh full") return null;
  if (isSet || stage === "set out") return setNamed(run, register, sieve?.serial ?? name, at);
  return sieve === undefined ? null : sieveScanned(run, sieve.serial, at);
}
