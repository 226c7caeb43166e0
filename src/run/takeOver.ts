import { notesOf } from "../care/use/life.ts";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { hasPassed } from "../procedure/balance/balanceState.ts";
import type { Draft } from "../record/draft.ts";
import { standing, type TestRecord, type TrailItem, type Weighing } from "../record/test.ts";
import { apertureText } from "../series/apertureText.ts";
import type { EmptiedTest } from "./emptied.ts";
import type { Run, Setting } from "./run.ts";
import { conditionOfSerial, outOfServiceWords } from "./sieves.ts";
import { weighingSet, withItem } from "./trail.ts";
import { inStage, stageAfter } from "./weigh.ts";

/** An empty mass with the test that it was weighed in, and when. */
interface Known {
  readonly apertureUm: number;
  readonly serial: string | undefined;
  readonly grams: number;
  readonly number: number;
  readonly at: string;
}

const rowName = (apertureUm: number): string => `the ${apertureText(apertureUm)} sieve`;
const clock = (at: string): string => `${at.slice(5, 10)} ${at.slice(11, 16)}`;

type TakenOverFrom = NonNullable<TrailItem["takenOver"]>;

/** What a sieve weighs is another thing after one of these. */
const CHANGES = { cleaning: "cleaned", repair: "repaired", "return to service": "returned to service" } as const;
type Change = keyof typeof CHANGES;
const isChange = (did: string): did is Change => did in CHANGES;

const isSameStack = (draft: Draft, test: TestRecord): boolean =>
  draft.weighings.length === test.weighings.length &&
  draft.weighings.every(({ apertureUm }) => test.weighings.some((w) => w.apertureUm === apertureUm));

/** A pan has no serial, and another one would weigh with the fines: it is weighed for every test. */
const sievesIn = ({ weighings }: Draft): readonly Weighing[] => weighings.filter(({ apertureUm }) => apertureUm > 0);

const rowOf = ({ weighings }: TestRecord, apertureUm: number): Weighing | undefined =>
  weighings.find((w) => w.apertureUm === apertureUm);

/** Which sieve of an earlier test was another one, in words; null where all are the same. */
function otherSieve(draft: Draft, { number, test }: EmptiedTest): string | null {
  const row = sievesIn(draft).find(({ apertureUm, serial }) => rowOf(test, apertureUm)?.serial !== serial);
  if (row === undefined) return null;
  const theirs = rowOf(test, row.apertureUm)?.serial ?? "one without a serial";
  return `${rowName(row.apertureUm)} is ${row.serial ?? "one without a serial"} here, no. ${number} had ${theirs}`;
}

/** The latest test on record on these very sieves; or why there is none. */
function sourceOf({ draft, setting }: Run): Outcome<EmptiedTest> {
  const alike = (setting.emptied ?? []).filter(({ test }) => isSameStack(draft, test));
  const [latest] = alike;
  if (latest === undefined) return refused("no test of this stack is on record lately: weigh the sieves");
  const same = alike.find((one) => otherSieve(draft, one) === null);
  return same === undefined ? refused(`${otherSieve(draft, latest)}: weigh the sieves`) : accepted(same);
}

const emptyItem = (test: TestRecord, apertureUm: number): TrailItem | undefined =>
  standing(test.trail).findLast((item) => item.field === "emptyG" && item.apertureUm === apertureUm);

/** Why a mass that an earlier test had taken over itself no longer is what its own first test says; null where it is. */
function originDoubt(
  first: TakenOverFrom,
  grams: number,
  apertureUm: number,
  { emptied = [] }: Setting,
): string | null {
  const origin = emptied.find(({ number }) => number === first.number);
  const name = rowName(apertureUm);
  if (origin === undefined) return `no. ${first.number}, in which ${name} was weighed empty, can't be read`;
  if (origin.voided) return `no. ${first.number}, in which ${name} was weighed empty, is void`;
  return rowOf(origin.test, apertureUm)?.emptyG === grams
    ? null
    : `the empty mass of ${name} was corrected in no. ${first.number}`;
}

/** The empty mass of one row of an earlier test. What that one had taken over itself keeps its first test and moment. */
function knownOf({ number, test }: EmptiedTest, { apertureUm, serial }: Weighing, setting: Setting): Outcome<Known> {
  const grams = rowOf(test, apertureUm)?.emptyG ?? null;
  const item = emptyItem(test, apertureUm);
  const name = rowName(apertureUm);
  if (grams === null) return refused(`${name} was not weighed empty in no. ${number}`);
  if (item?.to === grams && item.warned !== undefined)
    return refused(`${name} was doubted when it was weighed in no. ${number}: weigh the sieves`);
  const first = item?.takenOver;
  if (first === undefined) return accepted({ apertureUm, serial, grams, number, at: item?.at ?? test.startedAt });
  if (item?.to !== grams)
    return refused(
      `${name} was not weighed in no. ${number}, and its empty mass was corrected there: weigh the sieves`,
    );
  const doubt = originDoubt(first, grams, apertureUm, setting);
  return doubt === null ? accepted({ apertureUm, serial, grams, ...first }) : refused(`${doubt}: weigh the sieves`);
}

/** Why it is not sure that it was this sieve: a station that registers its sieves may have another of this aperture. */
function namelessDoubt(apertureUm: number, care: Setting["care"]): string | null {
  const isRegistered = care?.register.sieves.some((sieve) => sieve.apertureUm === apertureUm) ?? false;
  return isRegistered ? `no serial of ${rowName(apertureUm)} is told, so it may be another one` : null;
}

/** Why a sieve may weigh something else by now, or does not hold what it did; null where nothing speaks against it. */
function sieveDoubt({ apertureUm, serial, number, at }: Known, { care }: Setting): string | null {
  if (serial === undefined) return namelessDoubt(apertureUm, care);
  if (care === undefined) return "what is known of the sieves is still being read: one moment";
  const out = outOfServiceWords(care, serial);
  if (out !== null) return out;
  const changed = notesOf(serial, care.notes).flatMap(({ at: done, care: { did } }) =>
    isChange(did) && Date.parse(done) > Date.parse(at) ? [CHANGES[did]] : [],
  );
  const [change] = changed.slice(-1);
  if (change !== undefined) return `${serial} was ${change} since it was weighed (${clock(at)})`;
  const later = care.lives.get(serial)?.weighings.findLast((weighed) => weighed.number > number);
  if (later !== undefined) return `${serial} was weighed empty again in no. ${later.number}`;
  const { tare = null, together = null } = conditionOfSerial(care, serial) ?? {};
  if (together !== null) return together.text;
  const isOff = tare !== null && ["odd", "caught", "step up", "step down"].includes(tare.state);
  return isOff ? tare.text : null;
}

/** Why the masses of an earlier test can't stand for this one as a whole; null where they can. */
function testDoubt({ draft, setting }: Run, { number, voided, test }: EmptiedTest): string | null {
  if (voided) return `no. ${number}, the latest on these sieves, is void`;
  if (test.signed?.test === "invalid") return `no. ${number}, the latest on these sieves, is invalid`;
  const [theirs, ours] = [test.balance.id, draft.balance.id];
  if (theirs !== ours) return `no. ${number} was weighed on balance ${theirs}, this test is on ${ours}`;
  const last = setting.balanceKnown?.last ?? null;
  const failed = last !== null && !hasPassed(last);
  return failed ? `balance ${ours} failed its latest check` : null;
}

const allKnown = (source: EmptiedTest, rows: readonly Weighing[], setting: Setting): Outcome<readonly Known[]> => {
  const known = rows.map((row) => knownOf(source, row, setting));
  const none = known.find((one) => !one.ok);
  return none?.ok === false ? none : accepted(known.flatMap((one) => (one.ok ? [one.value] : [])));
};

/** The empty masses that the sieves still lack, of the latest test on the same sieves in this shift; or why not. */
function toTakeOver(run: Run, shiftBegan: string): Outcome<readonly Known[]> {
  const { draft, setting } = run;
  const { code, method } = draft.product;
  if (method?.emptyMasses !== "each shift")
    return refused(`the method of ${code} weighs the sieves empty for each test`);
  const source = sourceOf(run);
  if (!source.ok) return source;
  const doubt = testDoubt(run, source.value);
  if (doubt !== null) return refused(`${doubt}: weigh the sieves`);
  const known = allKnown(
    source.value,
    sievesIn(draft).filter(({ emptyG }) => emptyG === null),
    setting,
  );
  if (!known.ok) return known;
  const old = known.value.find(({ at }) => Date.parse(at) < Date.parse(shiftBegan));
  if (old !== undefined)
    return refused(`the sieves were weighed empty in another shift (${clock(old.at)}): weigh them once in this one`);
  const off = known.value.map((one) => sieveDoubt(one, setting)).find((why) => why !== null);
  return off === undefined ? known : refused(`${off}: weigh the sieves`);
}

const withKnown = (draft: Draft, { apertureUm, grams, number, at }: Known, now: string): Draft =>
  withItem(weighingSet(draft, apertureUm, "emptyG", grams), {
    at: now,
    field: "emptyG",
    apertureUm,
    from: null,
    to: grams,
    takenOver: { number, at },
  });

const nothingLeft = ({ weighings }: Draft): string =>
  weighings.every(({ emptyG }) => emptyG !== null)
    ? "every sieve is weighed empty already: Enter goes on"
    : "every sieve is weighed empty already; the pan is weighed for every test: weigh it";

function noteOf({ number, at }: Known, isPanAsked: boolean): string {
  return isPanAsked
    ? `empty masses of no. ${number} (${clock(at)}) taken over; now weigh the pan empty`
    : `empty masses of no. ${number} (${clock(at)}) taken over; e weighs a row anew`;
}

/**
 * The empty masses of the latest test on the same sieves, taken over for every sieve that is not weighed yet, where the
 * product's method allows it; the pan is then asked, where it is not weighed yet. Each says on the trail where it comes from; a row may be weighed anew all the same.
 *
 * @param shiftBegan when the present shift began; masses weighed before it are not taken over
 * @returns with the reason where the method does not allow it, or another balance, shift, sieve, a void or invalid test, a
 *   correction, a cleaning, a failed check or a doubt stands against it
 * @source own rule; the product's method decides whether it holds
 */
export function emptiesTakenOver(run: Run, shiftBegan: string, at: string): Run {
  if (run.draft.stage !== "weigh empty") return run;
  const known = toTakeOver(run, shiftBegan);
  // What was doubted stays doubted, so that the next digit begins a new mass.
  if (!known.ok) return { ...run, message: known.reason };
  const [first] = known.value;
  if (first === undefined) return { ...run, message: nothingLeft(run.draft) };
  const draft = known.value.reduce((filling, one) => withKnown(filling, one, at), run.draft);
  const stage = stageAfter(draft);
  return { ...inStage({ ...run, draft }, stage), note: noteOf(first, stage === "weigh empty") };
}
