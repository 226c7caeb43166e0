import { CHARACTERISTIC_VALUES } from "../../grading/values/table.ts";
import type { ValueWish } from "../../record/product.ts";
import { boundsChange, boundsWords } from "./bounds.ts";
import { ARROW, type Change, type Compare, change, unit, yesNo } from "./change.ts";
import { decisionChange } from "./decisionText.ts";
import { inOtherOrder, keyed } from "./lists.ts";

const rowOf = (id: string) => CHARACTERISTIC_VALUES.find((row) => row.id === id);

/** What a wish is called in words: "d50", or the trade's word for the value. */
export const wishName = (wish: ValueWish): string =>
  wish.id === "percentileUm" ? `d${wish.passingPct}` : (rowOf(wish.id)?.label ?? wish.id);

/** The unit of a wish's limits; empty for a pure number. */
export function wishUnit(wish: ValueWish): string {
  const of = wish.id === "percentileUm" ? "um" : (rowOf(wish.id)?.unit ?? "");
  return of === "1" ? "" : of;
}

const showFor = (wish: ValueWish): ((bound: number) => string) => unit(wishUnit(wish));

/** What besides its limits a wish says, as text. */
const settingsOf = (wish: ValueWish): readonly (readonly [string, string])[] =>
  wish.id === "finenessModulus"
    ? [
        ["series", wish.series ?? "astm, not stated"],
        ["missing sieves read from the curve", yesNo(wish.interpolateMissing ?? false)],
      ]
    : [];

function came(wish: ValueWish): string {
  const bounds = boundsWords(wish, showFor(wish));
  return bounds === ""
    ? `${wishName(wish)}: asked for, without a limit`
    : `limit on ${wishName(wish)} added, ${bounds}`;
}

function went(wish: ValueWish): string {
  const bounds = boundsWords(wish, showFor(wish));
  return bounds === "" ? `${wishName(wish)}: no longer asked for` : `limit on ${wishName(wish)} removed (${bounds})`;
}

function changed(before: ValueWish, after: ValueWish): string[] {
  const bounds = boundsChange(before, after, showFor(after));
  const now = new Map(settingsOf(after));
  const settings = settingsOf(before).flatMap(([name, was]) => {
    const is = now.get(name) ?? "";
    return is === was ? [] : [`${wishName(after)}: ${name} ${was} ${ARROW} ${is}`];
  });
  const decided = decisionChange(before.decision, after.decision).map((told) => `limit on ${wishName(after)}: ${told}`);
  return [...(bounds === "" ? [] : [`limit on ${wishName(after)}: ${bounds}`]), ...decided, ...settings];
}

/** Characteristic values that the product asks for, and the limits on them. */
export const wishChanges: Compare = (before, after) => {
  const [old, now] = [keyed(before.values ?? [], wishName), keyed(after.values ?? [], wishName)];
  const words = [...new Set([...old.keys(), ...now.keys()])].flatMap((name) => {
    const [was, is] = [old.get(name), now.get(name)];
    if (was === undefined) return is === undefined ? [] : [came(is)];
    return is === undefined ? [went(was)] : changed(was, is);
  });
  return [...words.map((told): Change => change("values", told)), ...inOtherOrder("values", "values", old, now)];
};
