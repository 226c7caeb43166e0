import type { NewPerson, OperatorChange, PersonShown } from "../../record/operatorsList.ts";
import type { SignOnRule } from "../../record/roles.ts";
import type { Credentials } from "../../store/operatorsDesk.ts";
import type { Store } from "../../store/store.ts";

/** What the screens know of who may work here. */
export interface PeopleShown {
  readonly rule: SignOnRule;
  /** Whether there is a list of people at all. */
  readonly known: boolean;
  readonly idleMinutes: number;
  readonly trouble: string | null;
  readonly list: readonly PersonShown[];
}

/** What the screens ask of the people's desk. */
export type PeopleAsk =
  | { readonly is: "sign on"; readonly who: Credentials }
  | { readonly is: "sign off"; readonly event: "off" | "idle" }
  | { readonly is: "set up"; readonly first: Omit<NewPerson, "role"> }
  | { readonly is: "change"; readonly change: OperatorChange }
  | { readonly is: "declare"; readonly rule: SignOnRule; readonly who: Credentials; readonly reason: string }
  | { readonly is: "idle"; readonly minutes: number };

export const peopleOf = ({ operators }: Store): PeopleShown => ({
  rule: operators.rule,
  known: operators.known,
  idleMinutes: operators.idleMinutes,
  trouble: operators.trouble,
  list: operators.people(),
});

/** A station without a list of people. */
export const NOBODY_LISTED: PeopleShown = { rule: "none", known: false, idleMinutes: 10, trouble: null, list: [] };

/** Signing on: initials, then the PIN, which is never drawn. */
export interface SignOnPlace {
  readonly name: "signOn";
  readonly field: "initials" | "pin";
  readonly initials: string;
  readonly pin: string;
  /** The PIN is being looked at. */
  readonly busy: boolean;
}

/** The people of the station. */
export interface OperatorsPlace {
  readonly name: "operators";
  readonly at: number;
}

export const FORMS = ["set up", "add", "role", "PIN", "standing", "turn", "idle"] as const;

/** Questions about people, asked one after the other. */
export interface OperatorFormPlace {
  readonly name: "operatorForm";
  readonly form: (typeof FORMS)[number];
  /** Whom it is about; empty for nobody yet. */
  readonly who: string;
  readonly answers: readonly string[];
  readonly typed: string;
  readonly busy: boolean;
  /** The recovery code, once it has been made. */
  readonly code: string | null;
}

export const SIGN_ON: SignOnPlace = { name: "signOn", field: "initials", initials: "", pin: "", busy: false };
