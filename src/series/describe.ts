import { nominalText } from "./apertureText.ts";
import { notesOn, readDesignation } from "./designation.ts";
import { found, type Lookup } from "./lookup.ts";
import type { Standing } from "./standing.ts";
import { publication, type StandardAperture, standardAperture } from "./table.ts";
import { type ApertureTolerance, toleranceByFormula } from "./tolerance.ts";

/** All that is known of one aperture; lengths in um, null where nothing is known. */
export interface ApertureDescription {
  readonly apertureUm: number;
  readonly designations: readonly string[];
  readonly series: readonly string[];
  /** Y, X and Z: as tabulated where such a table was seen, else by formula. */
  readonly meanToleranceUm: number | null;
  readonly maxDeviationUm: number | null;
  readonly intermediateDeviationUm: number | null;
  readonly figures: "tabulated" | "computed";
  readonly byFormula: ApertureTolerance | null;
  readonly wireUm: number | null;
  /** Each figure's standing and publication, in words. */
  readonly founded: readonly { readonly figure: string; readonly standing: Standing; readonly source: string }[];
  readonly notes: readonly string[];
}

const RECALLED = "recalled, not seen";

/**
 * Names, series, aperture limits and wire of an aperture in um. Limits are the printed ones where a table was seen
 * (`figures: "tabulated"`, rounded to 10 um), else those of the formulas (`"computed"`), which are given either way.
 * For an aperture of no standard the lists are empty and `notes` says so; beyond 20 um to 125 mm limits are null.
 *
 * @source ISO 565, ISO 3310-1, ASTM E11; standing of each figure in `founded`
 * @example describeAperture(600).designations // => ["600 um", "No. 30"]
 * @example describeAperture(2000).meanToleranceUm // => 70
 */
export function describeAperture(apertureUm: number): ApertureDescription {
  const row = standardAperture(apertureUm);
  const byFormula = toleranceByFormula(apertureUm) ?? null;
  const limits = row?.tabulated ?? byFormula;
  return {
    apertureUm,
    designations: row ? [nominalText(apertureUm), ...(row.us ? [row.us.name] : [])] : [],
    series: row ? [...row.series, ...(row.us ? ["ASTM E11"] : [])] : [],
    meanToleranceUm: limits?.meanUm ?? null,
    maxDeviationUm: limits?.maxUm ?? null,
    intermediateDeviationUm: limits?.intermediateUm ?? null,
    figures: row?.tabulated ? "tabulated" : "computed",
    byFormula,
    wireUm: row?.wire.um ?? null,
    founded: row ? foundations(row) : [],
    notes: [...notesOn(apertureUm), ...(byFormula ? [] : ["no aperture limits outside 20 um to 125 mm"])],
  };
}

/**
 * The same for a name typed by a person: `No. 30`, `3/8 in.`, `600 um`.
 *
 * @returns the description with the notes of the reading first, or why the text names no aperture
 */
export function describeDesignation(text: string): Lookup<ApertureDescription> {
  const read = readDesignation(text);
  if (!read.ok) return read;
  const description = describeAperture(read.value.apertureUm);
  return found({ ...description, notes: [...new Set([...read.value.notes, ...description.notes])] });
}

function foundations(row: StandardAperture): ApertureDescription["founded"] {
  const told = (figure: string, from: { status: "seen" | "memory"; source?: string }) => ({
    figure,
    standing: from.status,
    source: publication(from) ?? RECALLED,
  });
  return [
    { figure: "series", standing: "memory" as const, source: "ISO 565, recalled" },
    ...(row.us ? [told("US designation", row.us)] : []),
    row.tabulated
      ? told("aperture limits", row.tabulated)
      : { figure: "aperture limits", standing: "computed" as const, source: "formulas of ISO 3310-1, recalled" },
    told("wire", row.wire),
  ];
}
