/** Sizes that round to 1000 um in three digits and more are shown in mm. */
const MM_FROM_UM = 999.5;

/** The unit in which a size is shown, and how many um it has. */
export interface SizeUnit {
  readonly word: "um" | "mm";
  readonly um: 1 | 1000;
}

/**
 * The unit of everything that stands beside a size: bounds, distances, how sure it is. A row has one unit.
 *
 * @example unitBeside(2760) // => { word: "mm", um: 1000 }
 */
export const unitBeside = (sizeUm: number): SizeUnit =>
  sizeUm >= MM_FROM_UM ? { word: "mm", um: 1000 } : { word: "um", um: 1 };

/** A stated size in such a unit, as it was stated: no digit more or less. */
export const inUnit = (sizeUm: number, { um }: SizeUnit): number => Number((sizeUm / um).toPrecision(12));

/**
 * The bounds of a figure as they stand beside it, with the word of the unit: sizes in the unit of the figure itself.
 *
 * @param value the figure found; null: the bounds stand alone, in the unit of the larger
 * @example boundsBeside({ min: 2900, max: 3150 }, "um", 2759) // => { min: 2.9, max: 3.15, word: "mm" }
 */
export function boundsBeside(
  { min, max }: { readonly min: number | null; readonly max: number | null },
  unit: string,
  value: number | null,
): { readonly min: number | null; readonly max: number | null; readonly word: string } {
  if (unit !== "um") return { min, max, word: unit === "1" ? "" : unit };
  const shown = unitBeside(value ?? max ?? min ?? 0);
  const as = (bound: number | null) => (bound === null ? null : inUnit(bound, shown));
  return { min: as(min), max: as(max), word: shown.word };
}
