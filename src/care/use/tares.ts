import { inTime } from "../inTime.ts";
import type { EmptyWeighing, TareHistory } from "../tare/history.ts";
import { begunAnew, type CareNote, notesOf } from "./life.ts";

/** The weighings after a cleaning, as they were noted with it. */
function afterCleaning(serial: string, log: readonly CareNote[]): EmptyWeighing[] {
  return notesOf(serial, log).flatMap(({ at, care }) => {
    const weighed = care.did === "cleaning" ? care.after?.find((one) => one.serial === serial) : undefined;
    return weighed ? [{ at, emptyG: weighed.emptyG, round: `cleaning ${at}`, cleaned: true }] : [];
  });
}

/** The first weighing after each cleaning is one of a clean sieve, whether it was made with the cleaning or in a test. */
function cleanedMarked(serial: string, log: readonly CareNote[], inOrder: readonly EmptyWeighing[]): EmptyWeighing[] {
  const cleanings = notesOf(serial, log).filter(({ care }) => care.did === "cleaning");
  const firsts = new Set(cleanings.map(({ at }) => inOrder.find((w) => Date.parse(w.at) >= Date.parse(at))));
  return inOrder.map((w) => (firsts.has(w) ? { ...w, cleaned: true } : w));
}

/**
 * The empty weighings of a sieve that can be compared with each other: those since it was last repaired or returned to
 * service, from its tests and from its cleanings.
 *
 * @param tests its weighings in tests, all of them, in any order
 */
export function comparableTares(tests: TareHistory, log: readonly CareNote[]): TareHistory {
  const since = begunAnew(tests.serial, log);
  const all = inTime([...tests.weighings, ...afterCleaning(tests.serial, log)]);
  const comparable = all.filter((w) => since === null || Date.parse(w.at) > Date.parse(since));
  return { ...tests, weighings: cleanedMarked(tests.serial, log, comparable) };
}
