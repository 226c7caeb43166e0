import type { SamplingRule } from "../record/station.ts";
import { countable, type Facts, isAdjustment, latest, lineState, ms, type Sampled } from "./lineState.ts";

/** How a rule of the sampling plan stands. */
export interface Due {
  readonly rule: SamplingRule;
  /** "idle": the line stands still or runs another product, so that nothing is asked for. */
  readonly state: "done" | "due" | "late" | "idle";
  /** Since or from when a sample is due; null where none is foreseen. */
  readonly at: string | null;
  /** In the operator's words: what is asked for and why. */
  readonly why: string;
  readonly tightened: boolean;
}

export const USUAL_GRACE_MINUTES = 15;
const HOUR_MS = 3_600_000;

const isOf = (rule: SamplingRule) => (one: Sampled) =>
  one.product === rule.product &&
  one.line === rule.line &&
  (rule.samplingPoint === undefined || one.samplingPoint === rule.samplingPoint);

/** A test that proves nothing is to be repeated; it leaves the plan as it was. */
const proves = (one: Sampled): boolean => one.test !== "invalid" || one.amended?.waived === true;

/**
 * Whether the plan is tightened: fewer than `lots` different lots have passed since the latest fail.
 * Only valid tests that were judged count.
 *
 * @source common practice, no source: tightened inspection until so many lots in a row have passed
 */
export function isTightened(rule: SamplingRule, tests: readonly Sampled[]): boolean {
  if (rule.tightened === undefined) return false;
  const judged = countable(tests).filter(isOf(rule)).filter(proves);
  const fail = latest(judged.filter(({ verdict }) => verdict === "fail"));
  if (fail === null) return false;
  const passed = judged.filter((one) => one.verdict === "pass" && ms(one.at) > ms(fail.at) && one.lot !== fail.lot);
  return new Set(passed.map(({ lot }) => lot)).size < rule.tightened.lots;
}

interface Wanted {
  readonly at: string;
  readonly why: string;
}

const OFFSET = /([+-])(\d{2}):(\d{2})$/;

/** So many hours later, written with the same offset from UTC. */
function later(at: string, hours: number): string {
  const [offset = "Z", sign, h, m] = OFFSET.exec(at) ?? [];
  const offsetMs = (sign === "-" ? -1 : 1) * (Number(h ?? 0) * 60 + Number(m ?? 0)) * 60_000;
  return new Date(ms(at) + hours * HOUR_MS + offsetMs).toISOString().slice(0, 19) + offset;
}

function byHours(
  rule: SamplingRule,
  last: Sampled | null,
  since: string | null,
  from: string,
  tightened: boolean,
): Wanted | null {
  const hours = (tightened ? rule.tightened?.everyHours : undefined) ?? rule.everyHours;
  if (hours === undefined) return null;
  const why = tightened ? `every ${hours} h, tightened after a fail` : `every ${hours} h`;
  if (since !== null && (last === null || ms(since) > ms(last.at))) return { at: since, why };
  return { at: last === null ? from : later(last.at, hours), why };
}

function byLot(rule: SamplingRule, facts: Facts, tests: readonly Sampled[], tightened: boolean): Wanted | null {
  if (!rule.everyLot && !tightened) return null;
  const begun = latest(
    facts.events.filter(
      (event) =>
        event.line === rule.line &&
        event.what === "new lot" &&
        (event.product === undefined || event.product === rule.product),
    ),
  );
  if (begun === null || tests.some(({ lot }) => lot === begun.lot)) return null;
  const lot = begun.lot ?? "";
  return { at: begun.at, why: tightened ? `lot ${lot} after a fail` : `lot ${lot} is new` };
}

function byChange(rule: SamplingRule, { events }: Facts, last: Sampled | null): Wanted | null {
  const asked = events.filter(
    (event) =>
      event.line === rule.line &&
      ((event.what === "changeover" && rule.after?.includes("changeover") === true) ||
        (isAdjustment(event) && rule.after?.includes("adjustment") === true)),
  );
  const change = latest(asked);
  if (change === null || (last !== null && ms(last.at) > ms(change.at))) return null;
  return {
    at: change.at,
    why: change.what === "changeover" ? "after the changeover" : `after a change: ${change.what}`,
  };
}

/**
 * How one rule of the plan stands at a moment. What is wanted first counts: by hours since the last test (or since the line
 * was started or changed over, else since `from`), for a lot that was announced and not tested yet, after a changeover or
 * an adjustment that no test followed. Late is what is due longer than the rule's grace. Invalid tests don't count as done.
 *
 * @param from when the first sample is due where no test is known: the beginning of the shift
 * @source common practice, no source: a sampling plan by time, by lot and by change
 */
export function dueOf(rule: SamplingRule, facts: Facts, now: string, from: string): Due {
  const line = lineState(rule.line, facts);
  const tightened = isTightened(rule, facts.tests);
  const idle = (why: string): Due => ({ rule, state: "idle", at: null, why, tightened });
  if (line.stopped) return idle(`${rule.line} stands still`);
  if (line.product !== null && line.product !== rule.product) return idle(`${rule.line} runs ${line.product}`);
  const tests = countable(facts.tests).filter(isOf(rule)).filter(proves);
  const last = latest(tests);
  const wanted = dueFirst([
    byHours(rule, last, line.since, from, tightened),
    byLot(rule, facts, tests, tightened),
    byChange(rule, facts, last),
  ]);
  if (wanted === null) return { rule, state: "done", at: null, why: "nothing due", tightened };
  const overdueMs = ms(now) - ms(wanted.at);
  const graceMs = (rule.graceMinutes ?? USUAL_GRACE_MINUTES) * 60_000;
  const state = overdueMs < 0 ? "done" : overdueMs > graceMs ? "late" : "due";
  return { rule, state, at: wanted.at, why: wanted.why, tightened };
}

/** The one that is due first. */
const dueFirst = (wishes: readonly (Wanted | null)[]): Wanted | null =>
  wishes.reduce<Wanted | null>(
    (first, one) => (one !== null && (first === null || ms(one.at) < ms(first.at)) ? one : first),
    null,
  );

const URGENCY = { late: 0, due: 1, done: 2, idle: 3 } as const;

/** The whole plan, the most urgent first. */
export const planDue = (plan: readonly SamplingRule[], facts: Facts, now: string, from: string): readonly Due[] =>
  plan
    .map((rule) => dueOf(rule, facts, now, from))
    .sort((a, b) => URGENCY[a.state] - URGENCY[b.state] || ms(a.at ?? now) - ms(b.at ?? now));

/** A sample that was late during a shift: since when it was due, and when it was taken; null: not by the end. */
export interface LateSample {
  readonly rule: SamplingRule;
  readonly dueAt: string;
  readonly takenAt: string | null;
  readonly why: string;
}

const upTo = ({ tests, events }: Facts, at: string): Facts => ({
  tests: tests.filter((one) => ms(one.at) < ms(at)),
  events: events.filter((one) => ms(one.at) < ms(at)),
});

/**
 * Every late sample of a shift, by looking at the plan as it stood just before each test, before whatever else happened on
 * the line (a stop or a new lot ends what was due), and at the end.
 */
export function lateDuring(
  plan: readonly SamplingRule[],
  facts: Facts,
  { began, until }: { readonly began: string; readonly until: string },
): readonly LateSample[] {
  const during = (at: string): boolean => ms(at) >= ms(began) && ms(at) < ms(until);
  return plan.flatMap((rule) => {
    const tests = countable(facts.tests).filter(isOf(rule)).filter(proves);
    const taken = tests.filter(({ at }) => during(at)).map(({ at }) => ({ at, takenAt: at as string | null }));
    const events = facts.events.filter(({ line, at }) => line === rule.line && during(at));
    const looks = [...taken, ...events.map(({ at }) => ({ at, takenAt: null })), { at: until, takenAt: null }];
    const late = looks
      .sort((a, b) => ms(a.at) - ms(b.at))
      .flatMap(({ at, takenAt }): LateSample[] => {
        const due = dueOf(rule, upTo(facts, at), at, began);
        return due.state === "late" && due.at !== null ? [{ rule, dueAt: due.at, takenAt, why: due.why }] : [];
      });
    return lastOfEach(late);
  });
}

/** The same sample is late at one look after another: how it ended counts. */
function lastOfEach(late: readonly LateSample[]): readonly LateSample[] {
  return [...new Map(late.map((one) => [`${one.dueAt} ${one.why}`, one])).values()];
}
