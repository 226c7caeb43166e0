import type { IndexMonth } from "../record/indexRow.ts";
import { dayKind, indexKind } from "../record/kinds.ts";
import type { DayFile } from "../record/logEntry.ts";
import { type Kind, type ReadRecord, readRecord } from "../record/migrate.ts";
import type { Codec } from "./durableFile.ts";
import { plainJson } from "./plainJson.ts";
import { sumHolds, withSum } from "./summedCodec.ts";

/**
 * Days and months grow by an entry at a time and no entry ever changes, so the text of each is made once and kept as long
 * as the entry is: writing the hundredth test of a day costs little more than writing the first.
 */
const textOf = new WeakMap<object, string>();

function listText(items: readonly object[], indent: number): string {
  const texts = items.map((item) => {
    const known = textOf.get(item) ?? plainJson(item, indent);
    textOf.set(item, known);
    return known;
  });
  return texts.length === 0 ? "[]" : `[\n${texts.join(",\n")}\n]`;
}

/** A day or month as its file tells it: checked, unless the sum says that it is as it was written, and without the sum. */
function readSummed<T extends { readonly schema: string }>(text: string, kind: Kind<T>): ReadRecord<T> {
  const read = readRecord(text, kind, sumHolds(text));
  if (read.is !== "read" || !("sum" in read.value)) return read;
  const { sum: _, ...value } = read.value;
  return { is: "read", value: value as unknown as T };
}

export const dayCodec: Codec<DayFile> = {
  encode: ({ schema, day, entries }) =>
    withSum(`{
  "schema": ${plainJson(schema)},
  "day": ${plainJson(day)},
  "entries": ${listText(entries, 2)}
}
`),
  decode: (text) => readSummed(text, dayKind),
};

/** What few months have; entries of the log among it, whose own text is that of the day file. */
const further = (name: string, items: readonly object[] | undefined): string =>
  items === undefined ? "" : `,\n  "${name}": [\n${items.map((item) => plainJson(item, 0)).join(",\n")}\n]`;

/** One row a line. */
export const indexCodec: Codec<IndexMonth> = {
  encode: ({ schema, month, days, rows, drawnBy, undrawn, amendments, events }) =>
    withSum(`{
  "schema": ${plainJson(schema)},
  "month": ${plainJson(month)},
  "days": ${plainJson(days)},${drawnBy === undefined ? "" : `\n  "drawnBy": ${drawnBy},`}${undrawn === undefined ? "" : `\n  "undrawn": ${plainJson(undrawn)},`}
  "rows": ${listText(rows, 0)}${further("amendments", amendments)}${further("events", events)}
}
`),
  decode: (text) => readSummed(text, indexKind),
};
