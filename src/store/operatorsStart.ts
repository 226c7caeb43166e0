import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { faultInWords } from "../record/migrate.ts";
import { IDLE_MINUTES, type Operators, OperatorsSchema, type Person } from "../record/operators.ts";
import { type NewPerson, personMade, personOf } from "../record/operatorsList.ts";
import { pinRefusal } from "../record/operatorsPin.ts";
import type { OperatorEvent } from "../record/roles.ts";
import type { Credentials, Recovery } from "./operatorsDesk.ts";
import { secretRight } from "./operatorsSigning.ts";
import { declaredEntry, NOT_SET_UP, type OperatorsState, operatorEntry } from "./operatorsState.ts";
import { codeAsMade, newRecoveryCode, type PinCost, verifierOf } from "./operatorsVerifier.ts";

export type FirstPerson = Omit<NewPerson, "role">;

/** A list with one administrator in it, and the code that was made for it. */
async function firstList(
  first: FirstPerson,
  at: string,
  cost: PinCost,
): Promise<Outcome<{ list: Operators; person: Person; code: string }>> {
  const unfit = pinRefusal(first.pin, [first.initials, first.name]);
  if (unfit !== null) return refused(unfit);
  const person = personMade({ ...first, role: "administrator" }, await verifierOf(first.pin, cost), at);
  if (!person.ok) return person;
  const code = newRecoveryCode();
  const list: Operators = {
    schema: "sievewright.operators/1",
    signOn: "required",
    idleMinutes: IDLE_MINUTES.usual,
    people: [person.value],
    tries: [],
    recovery: await verifierOf(code, cost),
  };
  return accepted({ list, person: person.value, code });
}

async function begun(
  state: OperatorsState,
  first: FirstPerson,
  event: OperatorEvent,
  reason: string,
): Promise<Outcome<Recovery>> {
  const made = await firstList(first, state.now(), state.cost);
  if (!made.ok) return made;
  const { list, person, code } = made.value;
  const { initials } = person;
  const put = await state.put(list, [
    operatorEntry(initials, person, event, reason),
    declaredEntry(initials, "required", reason),
  ]);
  return put.ok ? accepted({ code }) : put;
}

/** What the log says as the reason where sign-on was set up at the screens. */
export const SET_UP_ON_SCREEN = "set up on screen";

export async function setUp(state: OperatorsState, first: FirstPerson, reason: string): Promise<Outcome<Recovery>> {
  if (state.list !== null) return refused("sign-on has been set up at this station already");
  if (state.trouble !== null) return refused(state.trouble);
  return begun(state, first, "added", reason);
}

export async function startAnew(state: OperatorsState, first: FirstPerson, reason: string): Promise<Outcome<Recovery>> {
  if (state.list !== null) return refused("operators.json is there: recover with the recovery code");
  if (state.ruleInLog === "none") return refused(NOT_SET_UP);
  const cleared = await state.clearPlace();
  if (!cleared.ok) return cleared;
  return begun(state, first, "recovered", reason);
}

/** The list as it is once somebody got in by the recovery code: an administrator with this PIN, and a new code. */
async function recovered(
  state: OperatorsState,
  list: Operators,
  who: Credentials,
  code: string,
): Promise<Outcome<{ list: Operators; person: Person }>> {
  const known = personOf(list.people, who.initials);
  if (known?.role !== "administrator")
    return refused("name one of the station's administrators; recovery makes no new one");
  if (known.state === "retired")
    return refused(`${known.initials} is retired: name an administrator who is not; a new list takes --anew`);
  const unfit = pinRefusal(who.pin, [known.initials, known.name]);
  if (unfit !== null) return refused(unfit);
  const person: Person = {
    ...known,
    pin: await verifierOf(who.pin, state.cost),
    pinSetAt: state.now(),
  };
  const people = list.people.map((one) => (one === known ? person : one));
  const parsed = OperatorsSchema.safeParse({
    ...list,
    people,
    recovery: await verifierOf(code, state.cost),
    tries: [],
  });
  return parsed.success ? accepted({ list: parsed.data, person }) : refused(faultInWords(parsed.error));
}

export async function recover(
  state: OperatorsState,
  typedCode: string,
  who: Credentials,
  reason: string,
): Promise<Outcome<Recovery>> {
  const { list } = state;
  if (list === null) return refused(state.trouble ?? NOT_SET_UP);
  const asked = {
    who: "",
    secret: codeAsMade(typedCode),
    verifier: list.recovery,
    wrong: "this is not the recovery code",
  };
  const right = await secretRight(state, list, asked);
  if (!right.ok) return right;
  const code = newRecoveryCode();
  const next = await recovered(state, state.list ?? list, who, code);
  if (!next.ok) return next;
  const { person } = next.value;
  const saved = await state.put(next.value.list, [operatorEntry(person.initials, person, "recovered", reason)]);
  return saved.ok ? accepted({ code }) : saved;
}
