import { type Care, LOOKS } from "../../record/care.ts";
import type { LedgerNote } from "../../record/careLedger.ts";
import { isComplete, notesOf, serialsOf } from "../use/life.ts";

/** Cleanings that the watch of the empty masses looks back to. */
const LATEST_CLEANINGS = 10;

const STATES: readonly Care["did"][] = ["quarantine", "retirement", "return to service"];
const ANEW: readonly Care["did"][] = ["repair", "return to service"];

/** The latest inspections: complete, and of each part. */
function inspectionsOf(notes: readonly LedgerNote[]): readonly (LedgerNote | undefined)[] {
  const complete = notes.findLast(({ care }) => isComplete(care));
  const lookedAt = LOOKS.map((look) =>
    notes.findLast(({ care }) => care.did === "inspection" && care.looks[look] !== undefined),
  );
  return [complete, ...lookedAt];
}

function neededOf(notes: readonly LedgerNote[]): readonly LedgerNote[] {
  const last = (kinds: readonly Care["did"][]) => notes.findLast(({ care }) => kinds.includes(care.did));
  const anew = last(ANEW);
  const cleanings = notes.slice(anew ? notes.indexOf(anew) : 0).filter(({ care }) => care.did === "cleaning");
  const measured = notes.findLast(({ care }) => care.did === "inspection" && care.measured !== undefined);
  const inspections = [last(["inspection"]), measured, ...inspectionsOf(notes)];
  const latest = [last(STATES), anew, ...inspections, last(["reference check"]), cleanings[0]];
  return [...latest.filter((note) => note !== undefined), ...cleanings.slice(-LATEST_CLEANINGS)];
}

/**
 * Numbers of the entries of the care log that still bear on the condition of a sieve: of each sieve the latest change of
 * state, inspection, complete inspection, look at each part, measurement, reference check, repair or return, its first
 * cleaning since and the latest ten.
 */
export function stillNeeded(notes: readonly LedgerNote[]): ReadonlySet<number> {
  const serials = new Set(notes.flatMap(({ care }) => serialsOf(care)));
  return new Set([...serials].flatMap((serial) => neededOf(notesOf(serial, notes)).map(({ number }) => number)));
}
