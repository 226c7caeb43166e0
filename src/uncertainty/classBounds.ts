import { topEnd } from "../grading/openEnds.ts";
import { standsAtUm } from "../grading/standsAt.ts";
import { nextCoarserPrincipalUm } from "../series/principal.ts";
import type { Graded } from "./graded.ts";

/** The size that everything passes: as the open ends of the grading have it, else the next size of R20/3. */
export function topBoundUm({ grading, choices }: Graded): number {
  const [coarsest] = grading.rows;
  const standsUm = coarsest ? standsAtUm(coarsest) : 0;
  const top = topEnd(grading, choices);
  return top.ok && top.value.boundUm > standsUm ? top.value.boundUm : nextCoarserPrincipalUm(coarsest?.apertureUm ?? 0);
}

/** Lower and upper size of the class that a row (0 the coarsest) holds, in um; the pan's class ends at half the finest aperture. */
export function classBoundsUm(graded: Graded, row: number): { readonly lowerUm: number; readonly upperUm: number } {
  const { rows } = graded.grading;
  const [own, coarser] = [rows[row], rows[row - 1]];
  const standsUm = own ? standsAtUm(own) : 0;
  const upperUm = coarser ? standsAtUm(coarser) : topBoundUm(graded);
  return { lowerUm: standsUm > 0 ? standsUm : upperUm / 2, upperUm };
}
