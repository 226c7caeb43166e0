import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { CHARACTERISTIC_VALUES } from "../../grading/values/table.ts";
import type { ValueWish } from "../../record/product.ts";
import { apertureOf } from "../../series/designation.ts";
import type { EditedOn, Share } from "./edits.ts";

const SHARES: Readonly<Record<string, Share>> = {
  passing: "passingPct",
  retained: "retainedPct",
  coarser: "coarserPct",
};

/** A bare number in front of which nothing stands is um here, as in a product file. */
const bareUm = (text: string): string => (/^[\d.,]+$/.test(text) ? `${text} um` : text);

/**
 * A new limit on an aperture as somebody types it: the aperture in um or by the name of its sieve, and before it what is
 * limited, passing if nothing is said.
 *
 * @example newAperture("retained No. 30") // => { ok: true, value: { kind: "aperture", share: "retainedPct", apertureUm: 600 } }
 */
export function newAperture(text: string): Outcome<Extract<EditedOn, { kind: "aperture" }>> {
  const [, word = "passing", size = ""] = /^\s*(?:([a-z]+)\s+)?(.+?)\s*$/i.exec(text) ?? [];
  const share = SHARES[word.toLowerCase()];
  const aperture = apertureOf(bareUm(share === undefined ? text : size));
  if (!aperture.ok) return refused(aperture.reason);
  return accepted({ kind: "aperture", share: share ?? "passingPct", apertureUm: aperture.value });
}

export interface ValueChoice {
  readonly wish: ValueWish;
  readonly label: string;
}

const wishOf = (id: string): ValueWish => ({ id }) as ValueWish;

const PERCENTILE = /^d\s*(\d{1,2}(?:[.,]\d{1,2})?)$/i;

/** Values that a filter finds, by label or id; "d63" is the percentile of that name. */
export function valueChoices(filter: string): readonly ValueChoice[] {
  const passing = PERCENTILE.exec(filter.trim())?.[1];
  const passingPct = Number(passing?.replace(",", "."));
  const percentile: ValueChoice[] =
    passingPct > 0 && passingPct < 100
      ? [{ wish: { id: "percentileUm", passingPct }, label: `d${passingPct}, the size that ${passingPct} % passes` }]
      : [];
  const words = filter.toLowerCase().split(/\s+/);
  const rows = CHARACTERISTIC_VALUES.filter(({ id, label }) =>
    words.every((word) => `${id} ${label}`.toLowerCase().includes(word)),
  );
  return [...percentile, ...rows.map(({ id, label }) => ({ wish: wishOf(id), label }))];
}
