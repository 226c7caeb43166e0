import canonicalize from "canonicalize";
import type { Care } from "../../record/care.ts";
import { ITEM_WORDS, itemName, nameOfItem, type RegisterItem } from "../../record/register.ts";
import type { Stack } from "../../record/sieve.ts";
import { apertureText } from "../../series/apertureText.ts";
import { serialsOf } from "../use/life.ts";
import { type Register, sieveOf, sievesOf } from "./register.ts";

const itemsOf = ({ sieves, sets, balances, weights, materials }: Register): readonly RegisterItem[] => [
  ...sieves,
  ...sets,
  ...balances,
  ...weights,
  ...materials,
];

const registeredBefore = (register: Register, item: RegisterItem): RegisterItem | undefined =>
  itemsOf(register).find((one) => itemName(one) === itemName(item));

/** Whether an item is registered exactly like this. */
export function isRegisteredAs(register: Register, item: RegisterItem): boolean {
  const before = registeredBefore(register, item);
  return before !== undefined && canonicalize(before) === canonicalize(item);
}

/** A scan says a sieve or a set: no name may mean both, nor differ from another by letter case alone. */
function clash(item: RegisterItem, register: Register): string | null {
  const name = nameOfItem(item);
  const scanned = (one: RegisterItem) => one.schema === "sievewright.sieve/1" || one.schema === "sievewright.stack/1";
  const twin = itemsOf(register).find((one) => {
    const sameKind = one.schema === item.schema || (scanned(one) && scanned(item));
    const same = nameOfItem(one).toLowerCase() === name.toLowerCase();
    return sameKind && same && (one.schema !== item.schema || nameOfItem(one) !== name);
  });
  if (twin === undefined) return null;
  return twin.schema === item.schema
    ? `${name} differs from ${nameOfItem(twin)} only by letter case; use ${nameOfItem(twin)}`
    : `${name} is the name of a ${ITEM_WORDS[twin.schema]} already; give the ${ITEM_WORDS[item.schema]} another`;
}

function setTrouble(set: Stack, register: Register): string | null {
  const unknown = set.serials.find((serial) => sieveOf(register, serial) === undefined);
  if (unknown !== undefined) return `sieve ${unknown} of set ${set.code} is not registered; register it first`;
  if (new Set(set.serials).size < set.serials.length) return `set ${set.code} names a sieve twice`;
  const apertures = sievesOf(register, set).map(({ apertureUm }) => apertureUm);
  const twice = apertures.find((um, i) => apertures[i - 1] === um);
  return twice === undefined ? null : `set ${set.code} has two sieves of ${apertureText(twice)}; it may have one`;
}

/**
 * Why an item can't be registered, in words; null when it can: names that could be confused, a set of sieves that are not
 * registered, a change without a reason, or nothing new.
 */
export function registerRefusal(register: Register, item: RegisterItem, reason: string | undefined): string | null {
  const unfit = clash(item, register) ?? (item.schema === "sievewright.stack/1" ? setTrouble(item, register) : null);
  if (unfit !== null) return unfit;
  if (registeredBefore(register, item) === undefined) return null;
  if (isRegisteredAs(register, item)) return `${itemName(item)} is registered like this already`;
  return reason?.trim() ? null : `${itemName(item)} is registered already: to change it takes a reason`;
}

const saysNothing = (care: Care): boolean =>
  care.did === "inspection" && care.measured === undefined && Object.keys(care.looks).length === 0;

/**
 * Why an entry of the care log can't be made, in words; null when it can: its sieves must be registered, and an inspection
 * must have looked at something or measured.
 */
export function careRefusal(register: Register, care: Care): string | null {
  if (saysNothing(care)) return "an inspection needs a look at least: nothing was looked at, nothing measured";
  const unknown = serialsOf(care).find((serial) => sieveOf(register, serial) === undefined);
  return unknown === undefined ? null : `sieve ${unknown} is not registered; register it first`;
}
