import type { Assessment, JudgedLimit } from "../assess.ts";
import { CHARACTERISTIC_VALUES } from "../grading/values/table.ts";
import { type Determination, undetermined } from "../record/determination.ts";
import type { Product } from "../record/product.ts";
import type { ValueId } from "../record/valueIds.ts";
import { say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";

/** One characteristic value as a page shows it: its trade word, what was found, and the limit on it if there is one. */
export interface ShownValue {
  /** A value id, or `percentileUm@50`. */
  readonly id: string;
  readonly label: string;
  readonly found: Determination;
  readonly limit: JudgedLimit | null;
  /** The class of the value in the trade's words; empty where it has none. */
  readonly words: string;
}

const USUAL = ["percentileUm@10", "percentileUm@50", "percentileUm@90", "uniformityCoefficient", "effectiveSizeUm"];

/** What a product's people want to see, in their order: `show`, else the values with limits, else the usual five. */
export function shownIds(product: Product | null): readonly string[] {
  if (product?.show) return product.show;
  const wished = (product?.values ?? []).map((v) => (v.id === "percentileUm" ? `percentileUm@${v.passingPct}` : v.id));
  return wished.length > 0 ? wished : USUAL;
}

function foundFor(id: string, { percentilesUm, values, verdict }: Assessment): Determination {
  const [name, passing] = id.split("@");
  if (name !== "percentileUm" || passing === undefined) return values[id as ValueId];
  const limit = verdict.limits.find((l) => l.on === id);
  if (limit?.value !== undefined && limit.value !== null) return { determinable: true, value: limit.value, unit: "um" };
  return percentilesUm[passing] ?? undetermined(limit?.reason ?? `d${passing} is not among the percentiles computed`);
}

const labelOf = (id: string): string => {
  const [name, passing] = id.split("@");
  return name === "percentileUm" ? `d${passing}` : (CHARACTERISTIC_VALUES.find((v) => v.id === id)?.label ?? id);
};

function wordsFor(id: string, found: Determination): string {
  const row = CHARACTERISTIC_VALUES.find((v) => v.id === id);
  return found.determinable && row?.words ? row.words(found.value) : "";
}

const shownValue =
  (assessment: Assessment) =>
  (id: string): ShownValue => {
    const found = foundFor(id, assessment);
    const limit = assessment.verdict.limits.find((l) => l.on === id) ?? null;
    return { id, label: labelOf(id), found, limit, words: wordsFor(id, found) };
  };

/** Of one of several numbers: "d10 is below 63 um (pan holds 14 %)". */
const OF_ONE = /^(\S+(?: \(\S+\))?) is ((?:below|above) .+)$/;

/** Why there is no value, in the language of the screens. */
export const reasonText = (reason: string): string =>
  reason
    .split("; ")
    .map((part) => {
      const [, name, why] = OF_ONE.exec(part) ?? [];
      return name && why ? say`${name} is ${spoken(why)}` : spoken(part);
    })
    .join("; ");

/** The values that a product's people want to see, in their order. */
export const shownValues = (assessment: Assessment, product: Product | null): readonly ShownValue[] =>
  shownIds(product).map(shownValue(assessment));

/** Every characteristic value of the house, in the order of its table. */
export const allValues = (assessment: Assessment): readonly ShownValue[] =>
  CHARACTERISTIC_VALUES.map((v) => v.id).map(shownValue(assessment));
