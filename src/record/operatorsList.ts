import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { quoted } from "../entry/quoted.ts";
import { faultInWords } from "./migrate.ts";
import {
  type Operators,
  OperatorsSchema,
  type Person,
  PersonSchema,
  sameInitials,
  type Verifier,
} from "./operators.ts";
import type { Role } from "./roles.ts";
import { sealOf } from "./seal.ts";

/** Somebody who is to sign on here, with the PIN as typed. */
export interface NewPerson {
  readonly initials: string;
  readonly name: string;
  readonly role: Role;
  readonly pin: string;
}

/** What an administrator changes about the people of a station. */
export type OperatorChange = { readonly reason: string } & (
  | ({ readonly event: "added" } & NewPerson)
  | { readonly event: "role changed"; readonly initials: string; readonly role: Role }
  | { readonly event: "PIN set"; readonly initials: string; readonly pin: string }
  | { readonly event: "retired" | "brought back"; readonly initials: string }
);

/** Of a person what anybody may see. */
export type PersonShown = Pick<Person, "initials" | "name" | "role" | "state">;

export const personOf = (people: readonly Person[], initials: string): Person | undefined =>
  people.find((person) => sameInitials(person.initials, initials));

/**
 * SHA-256 of the canonical JSON of what only people change: who is in the list, how they prove it, the recovery code and the
 * time without a key. Counted tries are left out, and so is `signOn`, which the log tells outright.
 */
export const listSealOf = ({ people, recovery, idleMinutes }: Operators): string =>
  sealOf({ people, recovery, idleMinutes });

const isActiveAdministrator = ({ role, state }: Person): boolean => role === "administrator" && state === "active";

export const personMade = ({ initials, name, role }: NewPerson, pin: Verifier, pinSetAt: string): Outcome<Person> => {
  const parsed = PersonSchema.safeParse({ initials, name: name.trim(), role, state: "active", pin, pinSetAt });
  return parsed.success ? accepted(parsed.data) : refused(faultInWords(parsed.error).replace(/^damaged at /, ""));
};

function after(person: Person, change: OperatorChange, pin: Verifier | null, at: string): Person {
  switch (change.event) {
    case "role changed":
      return { ...person, role: change.role };
    case "PIN set":
      return pin === null ? person : { ...person, pin, pinSetAt: at };
    case "retired":
      return { ...person, state: "retired" };
    case "brought back":
      return { ...person, state: "active" };
    case "added":
      return person;
  }
}

/** Why a change makes no sense for whom it is about; null when it does. */
function senseless(person: Person, change: OperatorChange): string | null {
  const { initials, state, role } = person;
  if (change.event === "retired" && state === "retired") return `${initials} is retired already`;
  if (change.event === "brought back" && state === "active") return `${initials} is not retired`;
  if (change.event === "role changed" && role === change.role) return `${initials} is ${role} already`;
  return null;
}

/** Somebody's place in the list after a change, and the list with it. */
export interface Changed {
  readonly operators: Operators;
  readonly person: Person;
}

/**
 * The list after a change. Refused in words for initials that are taken or unknown, and where no administrator would be
 * left. Nobody is ever removed: records keep their initials.
 *
 * @param pin what is kept of a new PIN; null for changes that set none
 */
export function withChange(
  operators: Operators,
  change: OperatorChange,
  pin: Verifier | null,
  at: string,
): Outcome<Changed> {
  const known = personOf(operators.people, change.initials);
  if (change.event === "added") return withNew(operators, change, pin, at);
  if (known === undefined) return refused(`${quoted(change.initials)} is nobody of this station`);
  const why = senseless(known, change);
  if (why !== null) return refused(why);
  const person = after(known, change, pin, at);
  return checked({ ...operators, people: operators.people.map((one) => (one === known ? person : one)) }, person);
}

function withNew(operators: Operators, person: NewPerson, pin: Verifier | null, at: string): Outcome<Changed> {
  const taken = personOf(operators.people, person.initials);
  if (taken !== undefined) return refused(`${taken.initials} is taken by ${taken.name}: choose other initials`);
  if (pin === null) return refused("a new person needs a PIN");
  const made = personMade(person, pin, at);
  return made.ok ? checked({ ...operators, people: [...operators.people, made.value] }, made.value) : made;
}

function checked(operators: Operators, person: Person): Outcome<Changed> {
  if (!operators.people.some(isActiveAdministrator))
    return refused(`${person.initials} is the only administrator: name another one first`);
  const parsed = OperatorsSchema.safeParse(operators);
  return parsed.success ? accepted({ operators, person }) : refused(faultInWords(parsed.error));
}
