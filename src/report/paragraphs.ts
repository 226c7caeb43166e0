import { wrapped } from "./columns.ts";

/** A text beside its label, wrapped to the width; further rows stand under the text. */
export function labelled(label: string, labelColumns: number, text: string, width: number): string[] {
  const rows = wrapped(text, width - labelColumns);
  return rows.map((row, i) => (i === 0 ? label : "").padEnd(labelColumns) + row);
}

/** A text under a heading, indented by two; further rows by two more. */
export const indented = (text: string, width: number): string[] => wrapped(`  ${text}`, width, "    ");
