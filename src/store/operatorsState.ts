import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { LogEntry, NewEntry } from "../record/logEntry.ts";
import { IDLE_MINUTES, type Operators, type Person } from "../record/operators.ts";
import { listSealOf } from "../record/operatorsList.ts";
import type { OperatorEvent, SignOnRule } from "../record/roles.ts";
import type { Cabinet } from "./cabinet.ts";
import type { Session } from "./operatorsDesk.ts";
import { dropNext, type FoundList, keepAside, writeNext, writeOperators } from "./operatorsFile.ts";
import type { PermittedEntry, Standing } from "./operatorsPermit.ts";
import { type PinCost, USUAL_COST } from "./operatorsVerifier.ts";

/** What the people's desk asks of the rest of the store. */
export interface Ways {
  /** One change after another, with the station still ours. */
  readonly inTurn: <T>(otherwise: string, step: () => Promise<Outcome<T>>) => Promise<Outcome<T>>;
  /** Records the store's own entries. */
  readonly record: (entries: readonly PermittedEntry[]) => Promise<Outcome<readonly LogEntry[]>>;
}

type OwnKind = Extract<NewEntry, { kind: "sign-on" | "operator" | "station declared" }>;
type Untimed<E> = E extends OwnKind ? Omit<E, "at"> : never;
/** What the store tells the log of its own accord about people, before it is dated. */
export type OwnEntry = Untimed<OwnKind>;

const RECOVERY = "Restore operators.json from a backup, or see sievewright operator recover --help";

export const NOT_SET_UP = "this station runs without sign-on: set it up first";

export const operatorEntry = (by: string, person: Person, event: OperatorEvent, reason: string): OwnEntry => {
  const { initials: who, name, role } = person;
  return { kind: "operator", by, who, name, role, event, reason };
};

export const declaredEntry = (by: string, signOn: SignOnRule, reason: string): OwnEntry => ({
  kind: "station declared",
  by,
  signOn,
  reason,
});

/** Who may work here and who is at it: the list as it lies on disk, what the log says of it, and who is signed on. */
export class OperatorsState implements Standing {
  session: Session | null = null;
  readonly #cabinet: Cabinet;
  readonly #now: () => string;
  /** Of new PINs. */
  readonly cost: PinCost;
  #list: Operators | null;
  readonly #outOfReach: string | null;
  /** Why the list that lies there is not used. */
  #notAsLogged: string | null;
  #ruleInLog: SignOnRule;
  #ways: Ways | null = null;

  /** @param ruleInLog what the log says, which nobody changes unseen */
  constructor(
    cabinet: Cabinet,
    found: FoundList,
    ruleInLog: SignOnRule,
    now: () => string,
    cost: PinCost = USUAL_COST,
  ) {
    this.cost = cost;
    this.#cabinet = cabinet;
    this.#now = now;
    this.#list = found.is === "read" ? found.content : null;
    this.#outOfReach = found.is === "out of reach" ? found.why : null;
    this.#notAsLogged = found.is === "not as logged" ? found.why : null;
    this.#ruleInLog = ruleInLog;
  }

  attach(ways: Ways): void {
    this.#ways = ways;
  }

  get ways(): Ways {
    if (this.#ways === null) throw new Error("the people's desk is not attached to a store");
    return this.#ways;
  }

  now(): string {
    return this.#now();
  }

  get list(): Operators | null {
    return this.#list;
  }

  get ruleInLog(): SignOnRule {
    return this.#ruleInLog;
  }

  /** The stricter of what the list and the log say. */
  get rule(): SignOnRule {
    return this.#list?.signOn === "required" || this.#ruleInLog === "required" ? "required" : "none";
  }

  get idleMinutes(): number {
    return this.#list?.idleMinutes ?? IDLE_MINUTES.usual;
  }

  /** A list that is gone or says otherwise than the log must not open the station to everybody. */
  get trouble(): string | null {
    if (this.#outOfReach !== null) return `nothing is recorded: ${this.#outOfReach}`;
    if (this.#ruleInLog === "none" || this.#list?.signOn === "required") return null;
    if (this.#notAsLogged !== null) return `nothing is recorded: ${this.#notAsLogged}. ${RECOVERY}`;
    const what = this.#list === null ? "operators.json is gone" : "operators.json says that nobody signs on";
    return `nothing is recorded: ${what}, but the log says that sign-on is required. ${RECOVERY}`;
  }

  /** Puts the list on disk; it is in force only then. */
  async save(list: Operators): Promise<Outcome<void>> {
    const written = await writeOperators(this.#cabinet, list);
    if (written.ok) this.#list = list;
    return written;
  }

  /**
   * Changes the list: it is laid beside, the log tells of it, it takes its place. A crash in between is made good by the next
   * opening, by what the log tells.
   */
  async put(list: Operators, entries: readonly OwnEntry[]): Promise<Outcome<void>> {
    const staged = await writeNext(this.#cabinet, list);
    if (!staged.ok) return staged;
    const told = await this.tell(entries, list);
    if (!told.ok) return told;
    const saved = await this.save(list);
    if (saved.ok) await dropNext(this.#cabinet);
    else this.remember(list);
    return saved.ok ? saved : refused(`${saved.reason}; the log has it already, and the next start puts it right`);
  }

  /** A list that the log doesn't tell of is kept out of the way of a new one. */
  async clearPlace(): Promise<Outcome<void>> {
    const aside = this.#notAsLogged === null ? accepted(undefined) : await keepAside(this.#cabinet);
    if (aside.ok) this.#notAsLogged = null;
    return aside;
  }

  /** In force for as long as the program runs, although it may not be on disk. */
  remember(list: Operators): void {
    this.#list = list;
  }

  /** Tells the log; whoever is signed on stands behind what they did themselves. */
  async tell(entries: readonly OwnEntry[], list: Operators | null = this.#list): Promise<Outcome<void>> {
    const at = this.now();
    const listed = list === null ? {} : { listSha256: listSealOf(list) };
    const told = await this.ways.record(
      entries.map((entry): PermittedEntry => {
        const signed = entry.by === this.session?.initials && !(entry.kind === "sign-on" && entry.event === "kept out");
        return { ...entry, at, ...listed, ...(signed ? { signedOn: true } : {}) };
      }),
    );
    if (!told.ok) return refused(told.reason);
    for (const entry of entries) if (entry.kind === "station declared") this.#ruleInLog = entry.signOn;
    return accepted(undefined);
  }
}
