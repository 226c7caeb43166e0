import { type StationConditions, stationConditions } from "../care/conditions.ts";
import type { CareKnown } from "../care/known.ts";
import { newLife } from "../care/ledger/ledger.ts";
import { careRefusal, registerRefusal } from "../care/register/refusals.ts";
import { type Register, registerOf, sieveOf } from "../care/register/register.ts";
import type { TareChoice } from "../care/tare/history.ts";
import { notesOf } from "../care/use/life.ts";
import type { NewEntry } from "../record/logEntry.ts";
import { itemName, type RegisterItem } from "../record/register.ts";
import type { EntryRef } from "../record/shiftEvents.ts";
import type { Station } from "../record/station.ts";
import type { CareDesk, CareReading } from "./careDesk.ts";
import type { CareLedgerOf } from "./careLedger.ts";
import type { Library } from "./library.ts";

/** What the balance of a station can tell; its repeatability as the register has it, else as the station says. */
function balanceOf({ balances }: Station, register: Register): TareChoice {
  const [own] = balances;
  if (own === undefined) return { readabilityG: 0.01 };
  const repeatabilityG = register.balances.find(({ id }) => id === own.id)?.repeatabilityG ?? own.repeatabilityG;
  return { readabilityG: own.readabilityG, ...(repeatabilityG ? { repeatabilityG } : {}) };
}

/** The care desk of a station: the ledger of the log, over what older programs and the plant put into the library. */
export class Care implements CareDesk {
  readonly #ledger: CareLedgerOf;
  readonly #library: Library;
  readonly #station: Station;

  constructor(ledger: CareLedgerOf, library: Library, station: Station) {
    this.#ledger = ledger;
    this.#library = library;
    this.#station = station;
  }

  async register(): Promise<Register> {
    const shelved: readonly RegisterItem[] = [
      ...(await this.#library.sieves.list()),
      ...(await this.#library.stacks.list()),
    ];
    const { register } = await this.#ledger.now();
    const items = new Map([...shelved.map((item) => [itemName(item), item] as const)]);
    for (const [name, { item }] of register) items.set(name, item);
    return registerOf([...items.values()]);
  }

  async revisionsOf(item: RegisterItem): Promise<readonly EntryRef[]> {
    return (await this.#ledger.now()).register.get(itemName(item))?.entries ?? [];
  }

  async reading(serial: string): Promise<CareReading | null> {
    const register = await this.register();
    const { lives, notes } = await this.#ledger.now();
    const life = lives.get(serial);
    if (life === undefined && sieveOf(register, serial) === undefined) return null;
    return {
      life: life ?? newLife(serial),
      notes: notesOf(serial, [...notes.values()]),
      told: life?.told ?? [],
    };
  }

  async known(today: string): Promise<CareKnown> {
    const register = await this.register();
    const ledger = await this.#ledger.now();
    const balance = balanceOf(this.#station, register);
    const policy = { balance, inspection: this.#station.sieveInspection };
    const conditions = stationConditions(register, ledger, policy, today);
    const { lives, notes, sets, amendments } = ledger;
    return {
      register,
      conditions,
      balance,
      amendments: [...amendments.values()].toSorted((a, b) => a.number - b.number),
      lives: new Map(lives),
      notes: [...notes.values()],
      lastSets: new Map(sets),
      ...(ledger.short === null ? {} : { short: true as const }),
    };
  }

  async conditions(today: string): Promise<StationConditions> {
    return (await this.known(today)).conditions;
  }

  async lastSet(productCode: string): Promise<string | null> {
    return (await this.#ledger.now()).sets.get(productCode) ?? null;
  }

  /** Why an entry does not fit the register, in words; null when it does, or has nothing to do with it. */
  async refusal(entry: NewEntry): Promise<string | null> {
    if (entry.kind === "registered") return registerRefusal(await this.register(), entry.item, entry.reason);
    return entry.kind === "care" ? careRefusal(await this.register(), entry.care) : null;
  }
}
