import type { Outcome } from "../entry/outcome.ts";
import type { NewPerson, OperatorChange, PersonShown } from "../record/operatorsList.ts";
import type { ActName } from "../record/permissions.ts";
import type { Role, SignOnEvent, SignOnRule } from "../record/roles.ts";

/** Whoever is signed on. */
export interface Session {
  readonly initials: string;
  readonly name: string;
  readonly role: Role;
}

/** Initials and PIN as typed. */
export interface Credentials {
  readonly initials: string;
  readonly pin: string;
}

/** The code that lets an administrator in whose PIN is lost; it is shown once and only its hash is kept. */
export interface Recovery {
  readonly code: string;
}

/**
 * The people of a station: who they are, who is signed on, whether they must be. All that changes here is told to the log
 * by the store itself, and no caller can tell it in its place.
 */
export interface OperatorsDesk {
  readonly rule: SignOnRule;
  /** Whether there is a list of people, be sign-on required or not. */
  readonly known: boolean;
  readonly idleMinutes: number;
  /** Why nothing can be recorded until the list of people is put right; null while all is well. */
  readonly trouble: string | null;
  readonly session: Session | null;
  /** Why whoever is signed on may not do something, in words; null when they may, or nobody need sign on. */
  refusal(act: ActName): string | null;
  /** In the order in which they were added. */
  people(): readonly PersonShown[];

  /** Takes the place of whoever was signed on. Refusals don't tell whether anybody has these initials. */
  signOn(who: Credentials): Promise<Outcome<Session>>;
  signOff(event: Extract<SignOnEvent, "off" | "idle">): Promise<Outcome<void>>;

  /** The first administrator of a station that had no list of people; from here on sign-on is required. */
  setUp(first: Omit<NewPerson, "role">, reason: string): Promise<Outcome<Recovery>>;
  /** An administrator's doing, but for one's own PIN. */
  change(change: OperatorChange): Promise<Outcome<void>>;
  /** An administrator, with the PIN once more, declares whether sign-on is required. */
  declare(rule: SignOnRule, who: Credentials, reason: string): Promise<Outcome<void>>;
  setIdleMinutes(minutes: number): Promise<Outcome<void>>;
  /** A new PIN for an administrator, against the recovery code, which is used up: the new one is given back. */
  recover(code: string, who: Credentials, reason: string): Promise<Outcome<Recovery>>;
  /** A new list where the log says that there was one and it is gone: no code can be asked for, but the log tells. */
  startAnew(first: Omit<NewPerson, "role">, reason: string): Promise<Outcome<Recovery>>;
}
