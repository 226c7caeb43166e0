import { apertureText } from "../series/apertureText.ts";
import type { Rows } from "./curve.ts";
import { remembered } from "./remembered.ts";
import { pctWords } from "./words.ts";

const below = remembered((rows: Rows["rows"]): string => {
  const finest = rows.at(-2);
  const panPct = rows.at(-1)?.retainedPct ?? 0;
  const passingPct = finest?.passingPct ?? 0;
  const withLoss = passingPct - panPct > 1e-9;
  const holds = `${withLoss ? "pan and loss hold" : "pan holds"} ${pctWords(passingPct)}`;
  return `below ${apertureText(finest?.apertureUm ?? 0)} (${holds})`;
});

const above = remembered(([coarsest]: Rows["rows"]): string => {
  return `above ${apertureText(coarsest?.apertureUm ?? 0)} (that sieve holds ${pctWords(coarsest?.coarserPct ?? 0)})`;
});

/** Why nothing can be read below the finest sieve, e.g. "below 63 um (pan holds 14 %)". */
export const belowFinest = ({ rows }: Rows): string => below(rows);

/** Why nothing can be read above the coarsest sieve, e.g. "above 1.40 mm (that sieve holds 12 %)". */
export const aboveCoarsest = ({ rows }: Rows): string => above(rows);
