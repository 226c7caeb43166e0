import type { RegisteredBalance, RegisteredWeight } from "../record/care.ts";
import type { Sieve } from "../record/sieve.ts";
import { type BalanceCondition, balanceCondition, type WeightCondition, weightCondition } from "./balanceCondition.ts";
import { type Condition, conditionOf } from "./conditionOf.ts";
import { type CareLedger, newLife, UNUSED } from "./ledger/ledger.ts";
import { type Register, sievesOf } from "./register/register.ts";
import type { TareChoice } from "./tare/history.ts";
import { watchLives } from "./tare/ofLife.ts";
import type { TareWatch } from "./tare/tareWatch.ts";
import type { Schedule } from "./use/due.ts";

/** What may be said of everything that a station sieves and weighs with. */
export interface StationConditions {
  /** In the order of the register. */
  readonly sieves: readonly Condition[];
  readonly balances: readonly BalanceCondition[];
  readonly weights: readonly WeightCondition[];
}

/** What of a station bears on the condition of its sieves. */
export interface CarePolicy {
  readonly balance: TareChoice;
  /** For sieves that have no interval of their own. */
  readonly inspection?: Schedule | undefined;
}

/** Sieves that are used together: each set, and those of no set one by one. */
function groupsOf(register: Register): readonly (readonly Sieve[])[] {
  const sets = register.sets.map((set) => sievesOf(register, set));
  const inSets = new Set(sets.flat().map(({ serial }) => serial));
  return [...sets, ...register.sieves.filter(({ serial }) => !inSets.has(serial)).map((sieve) => [sieve])];
}

function watches(register: Register, ledger: CareLedger, policy: CarePolicy): ReadonlyMap<string, TareWatch | null> {
  const notes = [...ledger.notes.values()];
  return new Map(
    groupsOf(register).flatMap((group) => {
      const lives = group.map(({ serial }) => ledger.lives.get(serial) ?? newLife(serial));
      const watch = watchLives(lives, notes, policy.balance);
      return group.map(({ serial }) => [serial, watch] as const);
    }),
  );
}

/**
 * The condition of every registered sieve, balance and check weight on one day. Sieves of a set are watched together, so
 * that a balance gone wrong is told from grains in a mesh.
 *
 * @param today ISO date of the station
 * @source the parts name theirs
 */
export function stationConditions(
  register: Register,
  ledger: CareLedger,
  policy: CarePolicy,
  today: string,
): StationConditions {
  const care = [...ledger.notes.values()];
  const watch = watches(register, ledger, policy);
  const sieves = register.sieves.map((sieve) => {
    const life = ledger.lives.get(sieve.serial);
    const { used = UNUSED } = life ?? {};
    const weighedAt = life?.weighings.at(-1)?.at ?? null;
    const schedule = sieve.inspection ?? policy.inspection;
    const history = {
      used,
      care,
      weighedAt,
      watch: watch.get(sieve.serial) ?? null,
      ...(schedule ? { schedule } : {}),
    };
    return conditionOf(sieve, history, today);
  });
  const checkOf = (id: string) => ledger.checks.get(id)?.check ?? null;
  return {
    sieves,
    balances: register.balances.map((one: RegisteredBalance) => balanceCondition(one, checkOf(one.id), today)),
    weights: register.weights.map((one: RegisteredWeight) => weightCondition(one, today)),
  };
}
