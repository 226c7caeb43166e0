import { netOfWeighingG, sumG } from "./netMass.ts";

/** Both weighings of one sieve, or the pan (aperture 0), as far as they are known. */
export interface PartlyWeighed {
  readonly apertureUm: number;
  readonly emptyG: number | null;
  readonly fullG: number | null;
  readonly earlierFullG?: readonly number[] | undefined;
}

export interface RunningRow extends PartlyWeighed {
  readonly netG: number | null;
  /** Percent of the charge; null while this or a coarser sieve is missing or lighter full than empty, or without a charge. */
  readonly passingPct: number | null;
}

/**
 * Net masses and passing % while masses are still missing.
 *
 *     passing_i = 100 - 100 (m_1 + ... + m_i) / charge
 *
 * @param weighed coarsest sieve first, the pan last
 * @param chargeG the charge in g; without it no percentage is possible before all is weighed
 * @returns rows in the same order; the pan passes 0 once all is known
 */
export function runningRows(weighed: readonly PartlyWeighed[], chargeG: number | null): RunningRow[] {
  const nets = weighed.map(netOfWeighingG);
  return weighed.map((row, i) => {
    const { apertureUm, emptyG, fullG } = row;
    const above = nets.slice(0, i + 1);
    const known = above.filter((net) => net !== null);
    const sound = known.length === above.length && known.every((netG) => netG >= 0);
    const told = chargeG !== null && chargeG > 0 && sound;
    const passingPct = told ? (apertureUm === 0 ? 0 : 100 - (100 * sumG(known)) / chargeG) : null;
    return { apertureUm, emptyG, fullG, netG: nets[i] ?? null, passingPct };
  });
}

/** What has been recovered so far, in g, from the rows that are weighed full. */
export const recoveredSoFarG = (rows: readonly RunningRow[]): number =>
  sumG(rows.flatMap((row) => (row.netG === null ? [] : [row.netG])));
