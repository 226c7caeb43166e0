import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { type Operators, operatorInitials, type Person, type Verifier } from "../record/operators.ts";
import { personOf } from "../record/operatorsList.ts";
import type { SignOnEvent } from "../record/roles.ts";
import { notAhead, oneMoreTry, triesOf, waitLeftMs, waitWords, withoutTries } from "../record/signOnWait.ts";
import type { Credentials, Session } from "./operatorsDesk.ts";
import type { OperatorsState, OwnEntry } from "./operatorsState.ts";
import { isRight, nobodyAt } from "./operatorsVerifier.ts";

const NO_MATCH = "initials and PIN don't match";
const LONGEST_SECRET = 200;

export const sessionOf = ({ initials, name, role }: Person): Session => ({ initials, name, role });

const signOnEntry = (who: string, event: SignOnEvent): OwnEntry => ({ kind: "sign-on", by: who, who, event });

/** Why a secret isn't looked at just now: too many wrong ones; null when it is. */
async function keptOut(state: OperatorsState, list: Operators, who: string): Promise<string | null> {
  const tries = triesOf(list.tries, who);
  if (tries === undefined) return null;
  const now = state.now();
  const leftMs = waitLeftMs(tries, now);
  const dated = notAhead(tries, now);
  if (dated !== tries) await state.save({ ...list, tries: [...withoutTries(list.tries, who), dated] });
  return leftMs === 0 ? null : `too many wrong PINs: try again in ${waitWords(leftMs)}`;
}

/** Counts a wrong secret where a restart doesn't forget it, and only then says that it was wrong. */
async function counted(state: OperatorsState, list: Operators, who: string, wrong: string): Promise<string> {
  const now = state.now();
  const tries = oneMoreTry(list.tries, who, now, (known) => known === "" || personOf(list.people, known) !== undefined);
  const next = { ...list, tries };
  const saved = await state.save(next);
  if (!saved.ok) state.remember(next);
  const last = triesOf(tries, who);
  const waitMs = last === undefined ? 0 : waitLeftMs(last, now);
  if (waitMs === 0) return wrong;
  if (who !== "") await state.tell([signOnEntry(who, "kept out")]);
  return `${wrong}; the next try counts in ${waitWords(waitMs)}`;
}

/** Looks at a secret as its owner's wait allows. */
export async function secretRight(
  state: OperatorsState,
  list: Operators,
  asked: { readonly who: string; readonly secret: string; readonly verifier: Verifier | null; readonly wrong: string },
): Promise<Outcome<void>> {
  const { who, secret, verifier, wrong } = asked;
  const out = await keptOut(state, list, who);
  if (out !== null) return refused(out);
  const current = state.list ?? list;
  const matches = await isRight(secret.slice(0, LONGEST_SECRET), verifier ?? nobodyAt(state.cost));
  if (!matches || verifier === null) return refused(await counted(state, current, who, wrong));
  if (triesOf(current.tries, who) === undefined) return accepted(undefined);
  return state.save({ ...current, tries: withoutTries(current.tries, who) });
}

/** Whoever these initials and this PIN are of. The answer is the same, and takes as long, for initials that nobody has. */
export async function proven(state: OperatorsState, { initials, pin }: Credentials): Promise<Outcome<Person>> {
  const { list } = state;
  if (list === null) return refused("nobody can sign on here: this station has no list of people");
  const typed = operatorInitials.safeParse(initials.trim());
  if (!typed.success) return refused("initials begin with a letter and have at most 8 characters");
  const person = personOf(list.people, typed.data);
  const verifier = person?.state === "active" ? person.pin : null;
  const who = person?.initials ?? typed.data;
  const right = await secretRight(state, list, { who, secret: pin, verifier, wrong: NO_MATCH });
  if (!right.ok) return right;
  return person === undefined ? refused(NO_MATCH) : accepted(person);
}

/** A declaration that a crash kept out of the log is made up for by the next who signs on. */
const madeUpFor = (state: OperatorsState, by: string): OwnEntry[] =>
  state.ruleInLog === "required"
    ? []
    : [{ kind: "station declared", by, signOn: "required", reason: "operators.json says so" }];

export async function signedOn(state: OperatorsState, who: Credentials): Promise<Outcome<Session>> {
  if (state.trouble !== null) return refused(state.trouble);
  if (state.rule === "none") return refused("this station runs without sign-on");
  const person = await proven(state, who);
  if (!person.ok) return person;
  const before = await signedOff(state, "off");
  if (!before.ok) return before;
  const session = sessionOf(person.value);
  state.session = session;
  const told = await state.tell([...madeUpFor(state, session.initials), signOnEntry(session.initials, "on")]);
  if (told.ok) return accepted(session);
  state.session = null;
  return told;
}

/** Whoever was signed on is so no longer, whatever the log says to it. */
export async function signedOff(state: OperatorsState, event: "off" | "idle"): Promise<Outcome<void>> {
  const { session } = state;
  if (session === null) return accepted(undefined);
  const told = await state.tell([signOnEntry(session.initials, event)]);
  state.session = null;
  return told;
}
