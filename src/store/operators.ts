import type { Outcome } from "../entry/outcome.ts";
import type { OperatorChange, PersonShown } from "../record/operatorsList.ts";
import { type ActName, actRefusal } from "../record/permissions.ts";
import type { SignOnRule } from "../record/roles.ts";
import * as changes from "./operatorsChanges.ts";
import type { Credentials, OperatorsDesk, Recovery, Session } from "./operatorsDesk.ts";
import { signedOff, signedOn } from "./operatorsSigning.ts";
import * as start from "./operatorsStart.ts";
import type { OperatorsState, Ways } from "./operatorsState.ts";

const shown = ({ initials, name, role, state }: PersonShown): PersonShown => ({ initials, name, role, state });

/** The people of an opened station: each change in turn, refused in words while the station is not ours. */
export class OperatorsOf implements OperatorsDesk {
  readonly #state: OperatorsState;

  constructor(state: OperatorsState, ways: Ways) {
    this.#state = state;
    state.attach(ways);
  }

  get rule(): SignOnRule {
    return this.#state.rule;
  }

  get known(): boolean {
    return this.#state.list !== null;
  }

  get idleMinutes(): number {
    return this.#state.idleMinutes;
  }

  get trouble(): string | null {
    return this.#state.trouble;
  }

  get session(): Session | null {
    return this.#state.session;
  }

  people(): readonly PersonShown[] {
    return (this.#state.list?.people ?? []).map(shown);
  }

  /** Why whoever is signed on may not do what has no entry of its own; null when they may. */
  refusal(act: ActName): string | null {
    const { rule, trouble, session } = this.#state;
    if (trouble !== null || rule === "none") return trouble;
    return session === null ? `nobody is signed on: to ${act}, sign on` : actRefusal(session.role, act);
  }

  signOn(who: Credentials): Promise<Outcome<Session>> {
    return this.#inTurn("nobody is signed on", () => signedOn(this.#state, who));
  }

  async signOff(event: "off" | "idle"): Promise<Outcome<void>> {
    const told = await this.#inTurn("the signing off is not recorded", () => signedOff(this.#state, event));
    this.#state.session = null;
    return told;
  }

  setUp(first: start.FirstPerson, reason: string): Promise<Outcome<Recovery>> {
    return this.#inTurn("sign-on is not set up", () => start.setUp(this.#state, first, reason));
  }

  change(change: OperatorChange): Promise<Outcome<void>> {
    return this.#inTurn("the list of people is not changed", () => changes.change(this.#state, change));
  }

  declare(rule: SignOnRule, who: Credentials, reason: string): Promise<Outcome<void>> {
    return this.#inTurn("sign-on is left as it was", () => changes.declare(this.#state, rule, who, reason));
  }

  setIdleMinutes(minutes: number): Promise<Outcome<void>> {
    return this.#inTurn("the time is left as it was", () => changes.setIdleMinutes(this.#state, minutes));
  }

  recover(code: string, who: Credentials, reason: string): Promise<Outcome<Recovery>> {
    return this.#inTurn("nothing is recovered", () => start.recover(this.#state, code, who, reason));
  }

  startAnew(first: start.FirstPerson, reason: string): Promise<Outcome<Recovery>> {
    return this.#inTurn("nothing is recovered", () => start.startAnew(this.#state, first, reason));
  }

  #inTurn<T>(otherwise: string, step: () => Promise<Outcome<T>>): Promise<Outcome<T>> {
    return this.#state.ways.inTurn(otherwise, step);
  }
}
