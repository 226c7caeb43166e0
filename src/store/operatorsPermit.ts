import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { NewEntry } from "../record/logEntry.ts";
import { actOf, actRefusal } from "../record/permissions.ts";
import type { SignOnRule } from "../record/roles.ts";
import type { Session } from "./operatorsDesk.ts";

/** An entry as it goes to the log: whether a PIN stands behind it is said here and nowhere else. */
export type PermittedEntry = NewEntry & { readonly signedOn?: true };

/** What bears on whether somebody may have an entry recorded. */
export interface Standing {
  readonly rule: SignOnRule;
  readonly trouble: string | null;
  readonly session: Session | null;
}

/** Told by the store itself, together with what they tell of. */
const OF_THE_STORE: readonly NewEntry["kind"][] = ["sign-on", "operator", "station declared"];

/** Whoever an entry says did it; a test and a check of the balance say so once more inside. */
function namesIn(entry: NewEntry): readonly string[] {
  if (entry.kind === "test") return [entry.by, entry.test.by];
  return entry.kind === "balance check" ? [entry.by, entry.check.by] : [entry.by];
}

const bare = (entry: PermittedEntry): NewEntry => {
  const { signedOn: _claimed, ...rest } = entry;
  return rest;
};

/** Why an entry is not recorded for whoever is signed on; null when it is. */
function refusal(entry: NewEntry, { session }: Standing): string | null {
  const act = actOf(entry);
  if (act === null) return null;
  if (session === null) return `nobody is signed on: to ${act}, sign on with initials and PIN`;
  const other = namesIn(entry).find((name) => name !== session.initials);
  if (other !== undefined) return `${session.initials} is signed on: ${other} must sign on to put a name to this`;
  return actRefusal(session.role, act);
}

/**
 * The entry as it may be recorded, or why it may not. Where sign-on is required an entry bears the name of whoever is
 * signed on, whose role must allow it; elsewhere any initials do, and nothing says that a PIN was given.
 */
export function permitted(entry: NewEntry, standing: Standing): Outcome<PermittedEntry> {
  if (OF_THE_STORE.includes(entry.kind)) return refused(`an entry of kind "${entry.kind}" is made by the store alone`);
  const claimed = bare(entry);
  if (standing.trouble !== null && actOf(claimed) !== null) return refused(standing.trouble);
  if (standing.rule === "none") return accepted(claimed);
  const why = refusal(claimed, standing);
  if (why !== null) return refused(why);
  const own = claimed.by === standing.session?.initials;
  return accepted(own ? { ...claimed, signedOn: true } : claimed);
}
