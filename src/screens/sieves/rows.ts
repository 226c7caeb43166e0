import type { Condition } from "../../care/conditionOf.ts";
import type { CareKnown } from "../../care/known.ts";
import { sievesOf } from "../../care/register/register.ts";
import { ITEM_WORDS, nameOfItem, type RegisterItem } from "../../record/register.ts";
import type { Sieve } from "../../record/sieve.ts";
import { apertureText } from "../../report/figures.ts";
import { conditionWord } from "../../report/sieveWords.ts";
import { say } from "../../words/say.ts";
import { matches } from "../list.ts";
import { conditionShown } from "./conditionSpan.ts";
import { nameShown } from "./names.ts";
import type { SievesPlace, WithCare } from "./places.ts";

/** A sieve of the list, and the set that it stands under. */
export interface SieveRow {
  readonly sieve: Sieve;
  readonly condition: Condition;
  /** "SET-A · filter sand, first set". */
  readonly group: string;
}

function groups({ register }: CareKnown): readonly { readonly group: string; readonly sieves: readonly Sieve[] }[] {
  const sets = register.sets.map((set) => ({ group: `${set.code} · ${set.name}`, sieves: sievesOf(register, set) }));
  const inSets = new Set(sets.flatMap(({ sieves }) => sieves.map(({ serial }) => serial)));
  const others = register.sieves.filter(({ serial }) => !inSets.has(serial));
  return others.length === 0 ? sets : [...sets, { group: say`in no set`, sieves: others }];
}

function isFound(filter: string, { sieve, condition, group }: SieveRow): boolean {
  const words = [sieve.serial, apertureText(sieve.apertureUm), `${sieve.apertureUm}`, group, sieve.location ?? ""];
  return matches(filter, words, [conditionShown(condition), conditionWord(condition), condition.registered]);
}

/** The sieves that match what is typed, set by set, coarsest first. */
export function sieveRows({ known, filter }: WithCare<SievesPlace>): readonly SieveRow[] {
  if (known === null) return [];
  const conditions = new Map(known.conditions.sieves.map((one) => [one.serial, one]));
  const rows = groups(known).flatMap(({ group, sieves }) =>
    sieves.flatMap((sieve) => {
      const condition = conditions.get(sieve.serial);
      return condition === undefined ? [] : [{ sieve, condition, group }];
    }),
  );
  return rows.filter((row) => isFound(filter, row));
}

/** What else is registered and matches: sets, balances, check weights, reference materials. */
export function otherItems({ known, filter }: WithCare<SievesPlace>): readonly RegisterItem[] {
  if (known === null) return [];
  const { sets, balances, weights, materials } = known.register;
  const items: readonly RegisterItem[] = [...balances, ...weights, ...sets, ...materials];
  return items.filter((item) => {
    const kind = ITEM_WORDS[item.schema];
    return matches(filter, [nameOfItem(item), "name" in item ? item.name : "", item.schema, kind, nameShown(kind)]);
  });
}
