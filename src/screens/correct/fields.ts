import type { Change } from "../../record/amendment.ts";
import type { TestRecord } from "../../record/test.ts";
import { standsAt } from "../../record/versions.ts";
import { decimalsOf, massText, NO_FIGURE } from "../../report/figures.ts";
import { fieldText } from "../../report/versionTable.ts";
import { dispositionText } from "../words.ts";

type DistributiveOmit<T, K extends PropertyKey> = T extends unknown ? Omit<T, K> : never;

/** A figure or word of a test that can be corrected: its field, and its sieve if it is a weighing. */
export type Correctable = DistributiveOmit<Change, "from" | "to">;

export type Content = number | string | null;

export const isMass = ({ field }: Correctable): boolean => field.endsWith("G");

const LONGEST: Partial<Record<Change["field"], number>> = { remark: 400 };
/** How long what is typed for a field may be. */
export const longest = ({ field }: Correctable): number => LONGEST[field] ?? 40;

/** All that can be corrected of a test, in the order of the work. */
export function correctables(test: TestRecord): readonly Correctable[] {
  const { method } = test.product;
  const washed = method?.washed === true || (test.washedG ?? null) !== null;
  const moist = method?.procedure?.moisture !== undefined || (test.moistG ?? null) !== null;
  const masses: Correctable[] = [
    ...(moist ? ([{ field: "moistG" }, { field: "dryG" }] as const) : []),
    { field: "chargeG" },
    ...(washed ? [{ field: "washedG" } as const] : []),
  ];
  const sieves = test.weighings.flatMap(({ apertureUm }): Correctable[] => [
    { field: "emptyG", apertureUm },
    { field: "fullG", apertureUm },
  ]);
  return [
    { field: "lot" },
    { field: "line" },
    { field: "samplingPoint" },
    ...masses,
    ...sieves,
    { field: "disposition" },
    { field: "remark" },
  ];
}

/** A change of a field from what stands there; the pair always fits the field that it came from. */
export const changeOf = (of: Correctable, from: Content, to: Content): Change => ({ ...of, from, to }) as Change;

export const isOf =
  (of: Correctable) =>
  (change: Change): boolean =>
    change.field === of.field &&
    (!("apertureUm" in change) || !("apertureUm" in of) || change.apertureUm === of.apertureUm);

/** What a test says in a field today. */
export const contentAt = (test: TestRecord, of: Correctable): Content =>
  standsAt(test, changeOf(of, null, null)) ?? null;

/** A content as it stands in the list. */
export function contentText(test: TestRecord, of: Correctable, content: Content): string {
  if (typeof content === "number") return `${massText(content, decimalsOf(test.balance.readabilityG))} g`;
  if (content === null || content === "") return NO_FIGURE;
  return of.field === "disposition" ? dispositionText(content as TestRecord["disposition"]) : content;
}

export const labelOf = (of: Correctable): string => fieldText(of).replace(/ g$/, "");
