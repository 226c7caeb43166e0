/** A figure that somebody outside published or generated, and what this program makes of the same input. */
export interface PublishedCheck {
  readonly value: string;
  /** The publication, as one cites it. */
  readonly source: string;
  /** seen: read in a copy; memory: recalled, not seen; generated: made with a formula or library, not published. */
  readonly status: "seen" | "memory" | "generated";
  readonly published: number;
  readonly ours: number;
  /** Half a step of the last printed digit, no more. */
  readonly tolerance: number;
  /** Where the published figure is not what its own input gives: an independent figure, and why they differ. */
  readonly disagreement?: { readonly recomputed: number; readonly tolerance: number; readonly why: string };
}

function fault({ published, ours, tolerance, disagreement }: PublishedCheck): string | null {
  const off = Math.abs(ours - published);
  if (!disagreement)
    return off <= tolerance ? null : `${ours} is not within ${tolerance} of the published ${published}`;
  const { recomputed } = disagreement;
  if (off <= tolerance) return `${ours} agrees with the published ${published}: the disagreement is no more`;
  const near = Math.abs(ours - recomputed) <= disagreement.tolerance;
  return near ? null : `${ours} is not within ${disagreement.tolerance} of the recomputed ${recomputed}`;
}

/** Asserts that ours agrees with the published figure, or disagrees as explained; returns the check for the table. */
export function published(check: PublishedCheck): PublishedCheck {
  const found = fault(check);
  if (found !== null) throw new Error(`${check.value} (${check.source}): ${found}`);
  return check;
}

/** Half a step of the last of so many significant digits. */
export const halfDigit = (figure: number, digits = 10): number =>
  figure === 0 ? 10 ** -digits : 0.5 * 10 ** (Math.floor(Math.log10(Math.abs(figure))) - digits + 1) * 1.0001;

interface Columns extends Omit<PublishedCheck, "published" | "ours" | "disagreement"> {
  readonly published: readonly number[];
  readonly ours: readonly number[];
}

/** One check for a printed column of figures: the figure that is furthest off stands for all. */
export function furthestOff({ published: figures, ours, value, ...rest }: Columns): PublishedCheck {
  if (figures.length !== ours.length) throw new Error(`${value}: ${figures.length} figures against ${ours.length}`);
  const offs = figures.map((figure, i) => Math.abs(figure - (ours[i] ?? Number.NaN)));
  const at = offs.findIndex((off) => !(off < Math.max(...offs)));
  const told = `${value} (the furthest off of ${figures.length})`;
  return { ...rest, value: told, published: figures[at] ?? Number.NaN, ours: ours[at] ?? Number.NaN };
}
