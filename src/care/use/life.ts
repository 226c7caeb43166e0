import { type Care, type Inspection, LOOKS } from "../../record/care.ts";
import type { Sieve, SieveState } from "../../record/sieve.ts";
import { inTime } from "../inTime.ts";

/** An entry of the care log, with its moment. */
export interface CareNote {
  readonly at: string;
  readonly care: Care;
}

/** The sieves that an entry is about. */
export function serialsOf(care: Care): readonly string[] {
  if (care.did === "inspection") return [care.serial];
  if (care.did === "reference check") return care.found.flatMap(({ serial }) => serial ?? []);
  return care.serials;
}

/** The entries that concern one sieve, oldest first. */
export const notesOf = <T extends CareNote>(serial: string, log: readonly T[]): readonly T[] =>
  inTime(log.filter(({ care }) => serialsOf(care).includes(serial)));

/** The state of a sieve with its reason and since when. */
export interface Standing {
  readonly state: SieveState;
  readonly reason: string | null;
  readonly since: string | null;
}

function changed(before: Standing, { at, care }: CareNote): Standing {
  const since = at.slice(0, 10);
  if (care.did === "quarantine") return { state: "quarantine", reason: care.reason, since };
  if (care.did === "retirement") return { state: "retired", reason: care.reason, since };
  if (care.did === "return to service") return { state: "in service", reason: care.reason, since };
  return before;
}

/**
 * The state of a sieve: as the register has it, changed by every entry of the care log since the register was
 * written, in order of time. What is retired stays so until it is returned to service with a reason.
 */
export function standingOf(sieve: Sieve, log: readonly CareNote[]): Standing {
  const { state = "in service", stateReason = null, stateSince = null } = sieve;
  const later = notesOf(sieve.serial, log).filter(({ at }) => stateSince === null || at.slice(0, 10) >= stateSince);
  return later.reduce(changed, { state, reason: stateReason, since: stateSince });
}

/** The latest inspection of a sieve and its moment. */
export function lastInspection(
  serial: string,
  log: readonly CareNote[],
): { at: string; inspection: Inspection } | null {
  const inspections = notesOf(serial, log).flatMap(({ at, care }) =>
    care.did === "inspection" ? [{ at, inspection: care }] : [],
  );
  return inspections.at(-1) ?? null;
}

/** Whether nothing of a sieve was left out at a look; a look at a part of it is no inspection that an interval counts from. */
export const isComplete = (care: Care): boolean =>
  care.did === "inspection" && LOOKS.every((look) => care.looks[look] !== undefined);

/** The latest inspection at which everything was looked at, from which the interval counts. */
export const lastComplete = (serial: string, log: readonly CareNote[]): ReturnType<typeof lastInspection> =>
  lastInspection(
    serial,
    log.filter(({ care }) => isComplete(care)),
  );

/** How each part of a sieve was seen last, at whichever inspection that was. */
export function lastLooks(serial: string, log: readonly CareNote[]): Inspection["looks"] {
  const seen = notesOf(serial, log).map(({ care }) => (care.did === "inspection" ? care.looks : {}));
  return Object.assign({}, ...seen);
}

/** The latest inspection at which apertures were measured; a look at the cloth afterwards says nothing against it. */
export function lastMeasured(serial: string, log: readonly CareNote[]): { at: string; inspection: Inspection } | null {
  const measured = log.filter(({ care }) => care.did === "inspection" && care.measured !== undefined);
  return lastInspection(serial, measured);
}

/** The moment from which on the empty masses of a sieve are of one kind: its latest repair or return to service. */
export function begunAnew(serial: string, log: readonly CareNote[]): string | null {
  const changes = notesOf(serial, log).filter(({ care }) => care.did === "repair" || care.did === "return to service");
  return changes.at(-1)?.at ?? null;
}
