import { wrapped } from "../../report/columns.ts";
import type { Role } from "../../terminal/theme.ts";
import { type Line, line, span } from "../line.ts";

const LABEL_COLUMNS = 14;

/** Words in as many rows as they need. */
export const told = (text: string, columns: number, role: Role = "plain"): Line[] =>
  wrapped(text, columns - 4, "  ").map((row) => line(`  ${row}`, role));

/** A label and what stands behind it, in as many rows as it needs. */
export function labelled(label: string, text: string, columns: number, role: Role = "plain"): Line[] {
  return wrapped(text, columns - LABEL_COLUMNS - 4).map((row, i) => [
    span(`  ${(i === 0 ? label : "").padEnd(LABEL_COLUMNS)}`, "dim"),
    span(row, role),
  ]);
}
