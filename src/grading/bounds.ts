import { apertureText } from "../series/apertureText.ts";
import type { Rows } from "./curve.ts";
import type { GradedFraction } from "./grading.ts";
import { remembered } from "./remembered.ts";
import { standsAtUm } from "./standsAt.ts";
import { meanText, pctWords } from "./words.ts";

/** A nominal aperture in full; a mean one with four digits, so that it is told from the nominal. */
const standsAtText = (row: GradedFraction): string =>
  row.meanUm === undefined ? apertureText(row.apertureUm) : meanText(standsAtUm(row));

const below = remembered((rows: Rows["rows"]): string => {
  const finest = rows.at(-2);
  const panPct = rows.at(-1)?.retainedPct ?? 0;
  const passingPct = finest?.passingPct ?? 0;
  const withLoss = passingPct - panPct > 1e-9;
  const [at, pct] = [finest ? standsAtText(finest) : "", pctWords(passingPct)];
  return withLoss ? `below ${at} (pan and loss hold ${pct})` : `below ${at} (pan holds ${pct})`;
});

const above = remembered(([coarsest]: Rows["rows"]): string => {
  return `above ${coarsest ? standsAtText(coarsest) : ""} (that sieve holds ${pctWords(coarsest?.coarserPct ?? 0)})`;
});

/** Why nothing can be read below the finest sieve, e.g. "below 63 um (pan holds 14 %)". */
export const belowFinest = ({ rows }: Rows): string => below(rows);

/** Why nothing can be read above the coarsest sieve, e.g. "above 1.40 mm (that sieve holds 12 %)". */
export const aboveCoarsest = ({ rows }: Rows): string => above(rows);
