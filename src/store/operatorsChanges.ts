import { type Outcome, refused } from "../entry/outcome.ts";
import { IDLE_MINUTES, OperatorsSchema } from "../record/operators.ts";
import { type OperatorChange, personOf, withChange } from "../record/operatorsList.ts";
import { pinRefusal } from "../record/operatorsPin.ts";
import { actRefusal, mayDo } from "../record/permissions.ts";
import type { SignOnRule } from "../record/roles.ts";
import type { Credentials } from "./operatorsDesk.ts";
import { proven, sessionOf, signedOff } from "./operatorsSigning.ts";
import { declaredEntry, NOT_SET_UP, type OperatorsState, operatorEntry } from "./operatorsState.ts";
import { verifierOf } from "./operatorsVerifier.ts";

/** An administrator may change all, everybody their own PIN. */
function changeRefusal({ session, trouble, list, rule }: OperatorsState, change: OperatorChange): string | null {
  if (trouble !== null) return trouble;
  if (list === null) return NOT_SET_UP;
  if (rule === "none") return "the list of people is changed while sign-on is required: turn it on first";
  if (session === null) return "nobody is signed on: to manage operators, sign on with initials and PIN";
  const own = personOf(list.people, change.initials)?.initials === session.initials;
  return own && change.event === "PIN set" ? null : actRefusal(session.role, "manage operators");
}

/** No change of who may do what without its entry. */
export async function change(state: OperatorsState, wanted: OperatorChange): Promise<Outcome<void>> {
  const { session, list } = state;
  const why = changeRefusal(state, wanted);
  if (why !== null || session === null || list === null) return refused(why ?? NOT_SET_UP);
  const named = wanted.event === "added" ? wanted.name : (personOf(list.people, wanted.initials)?.name ?? "");
  const unfit = "pin" in wanted ? pinRefusal(wanted.pin, [wanted.initials, named]) : null;
  if (unfit !== null) return refused(unfit);
  const pin = "pin" in wanted ? await verifierOf(wanted.pin, state.cost) : null;
  const changed = withChange(list, wanted, pin, state.now());
  if (!changed.ok) return changed;
  const { operators, person } = changed.value;
  const entry = operatorEntry(session.initials, person, wanted.event, wanted.reason);
  const saved = await state.put(operators, [entry]);
  if (!saved.ok) return saved;
  if (person.initials === session.initials) state.session = person.state === "active" ? sessionOf(person) : null;
  return saved;
}

/** Turning sign-on on or off. Off takes effect only once both the log and the list say so. */
export async function declare(
  state: OperatorsState,
  rule: SignOnRule,
  who: Credentials,
  reason: string,
): Promise<Outcome<void>> {
  if (state.list === null) return refused(state.trouble ?? NOT_SET_UP);
  const person = await proven(state, who);
  if (!person.ok) return person;
  const { role } = person.value;
  if (!mayDo(role, "change the station")) return refused(actRefusal(role, "change the station") ?? "");
  const list = state.list ?? null;
  if (list === null || (list.signOn === rule && state.ruleInLog === rule))
    return refused(rule === "required" ? "sign-on is required already" : "this station runs without sign-on already");
  const before = await signedOff(state, "off");
  if (!before.ok) return before;
  state.session = sessionOf(person.value);
  const told = await state.put({ ...list, signOn: rule }, [declaredEntry(person.value.initials, rule, reason)]);
  state.session = null;
  return told;
}

export async function setIdleMinutes(state: OperatorsState, minutes: number): Promise<Outcome<void>> {
  const { session, list, trouble } = state;
  if (trouble !== null || list === null) return refused(trouble ?? NOT_SET_UP);
  if (session === null) return refused("nobody is signed on: sign on with initials and PIN");
  const why = actRefusal(session.role, "change the station");
  if (why !== null) return refused(why);
  const next = OperatorsSchema.safeParse({ ...list, idleMinutes: minutes });
  if (!next.success) return refused(`from ${IDLE_MINUTES.least} to ${IDLE_MINUTES.most} minutes`);
  const reason = `signed off after ${minutes} min without a key`;
  return state.put(next.data, [declaredEntry(session.initials, "required", reason)]);
}
