import { topEnd } from "../grading/openEnds.ts";
import { nextCoarserPrincipalUm } from "../series/principal.ts";
import type { Graded } from "./graded.ts";

/** The size that everything passes: as the open ends of the grading have it, else the next size of R20/3. */
export function topBoundUm({ grading, choices }: Graded): number {
  const coarsestUm = grading.rows[0]?.apertureUm ?? 0;
  const top = topEnd(grading, choices);
  return top.ok && top.value.boundUm > coarsestUm ? top.value.boundUm : nextCoarserPrincipalUm(coarsestUm);
}

/** Lower and upper size of the class that a row (0 the coarsest) holds, in um; the pan's class ends at half the finest aperture. */
export function classBoundsUm(graded: Graded, row: number): { readonly lowerUm: number; readonly upperUm: number } {
  const { rows } = graded.grading;
  const apertureUm = rows[row]?.apertureUm ?? 0;
  const upperUm = rows[row - 1]?.apertureUm ?? topBoundUm(graded);
  return { lowerUm: apertureUm > 0 ? apertureUm : upperUm / 2, upperUm };
}
