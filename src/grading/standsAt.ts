import { apertureText } from "../series/apertureText.ts";
import type { Fraction, Grading } from "./grading.ts";
import { remembered } from "./remembered.ts";
import { meanText } from "./words.ts";

type Rows = Pick<Grading, "rows">;

/** Where a row stands on the size axis, in um: its chosen mean aperture, else its nominal one. */
export const standsAtUm = ({ apertureUm, meanUm }: Pick<Fraction, "apertureUm" | "meanUm">): number =>
  meanUm ?? apertureUm;

/** Whether the curve is drawn over other apertures than the nominal ones. */
export const isOverMeans = ({ rows }: Rows): boolean => rows.some(({ meanUm }) => meanUm !== undefined);

const faultOf = remembered((rows: Rows["rows"]): string | null => {
  if (!isOverMeans({ rows })) return null;
  const sieves = rows.filter(({ apertureUm, meanUm }) => apertureUm > 0 && meanUm !== undefined);
  const unknown = sieves.filter(({ meanUm }) => meanUm === null).map(({ apertureUm }) => apertureText(apertureUm));
  if (unknown.length > 1 && unknown.length === sieves.length) return "no mean aperture of these sieves is known";
  if (unknown.length > 0) return `the mean aperture of ${unknown.join(", ")} is not known`;
  const at = sieves.findIndex((row, i) => standsAtUm(row) >= standsAtUm(sieves[i - 1] ?? { apertureUm: Infinity }));
  const [coarser, row] = [sieves[at - 1], sieves[at]];
  if (!coarser || !row) return null;
  const [own, next] = [meanText(standsAtUm(row)), meanText(standsAtUm(coarser))];
  return `the mean aperture of ${apertureText(row.apertureUm)} (${own}) is not below that of ${apertureText(coarser.apertureUm)} (${next})`;
});

/**
 * Why no curve can be drawn over the chosen mean apertures: one of them is not known, or they do not fall from sieve to
 * sieve. What is chosen and not known is not replaced by the nominal aperture.
 *
 * @returns null where the curve can be drawn; always over nominal apertures
 */
export const sizeFault = ({ rows }: Rows): string | null => faultOf(rows);

/**
 * The rows as a drawing of the curve has them, each at the size where it stands; none where there is no curve. Over nominal
 * apertures the rows themselves.
 */
export function asDrawn(rows: Rows["rows"]): Rows["rows"] {
  if (!isOverMeans({ rows })) return rows;
  if (sizeFault({ rows }) !== null) return [];
  return rows.map((row) => ({ ...row, apertureUm: standsAtUm(row) }));
}
