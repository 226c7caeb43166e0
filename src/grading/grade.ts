import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { gradingFault } from "./gradable.ts";
import type { Fraction, GradedFraction, Grading, GradingMasses } from "./grading.ts";
import { netMassG, sumG } from "./netMass.ts";

const pctOf = (massG: number, totalG: number): number => (massG === totalG ? 100 : (100 * massG) / totalG);

/** Of the recovered total: what lies below, so that an empty pan passes exactly 0 %. */
function passingOfRecovered(netsG: readonly number[], washLossG: number, totalG: number): number[] {
  return netsG.map((_, i) => pctOf(sumG([...netsG.slice(i + 1), washLossG]), totalG));
}

/** Of the charge: 100 % less what lies above; a stack that gained mass passes 0 %, never less. */
function passingOfCharge(coarserG: readonly number[], chargeG: number): number[] {
  return coarserG.map((aboveG) => Math.max(0, 100 - pctOf(aboveG, chargeG)));
}

interface Totals {
  readonly basis: Grading["basis"];
  readonly totalG: number;
  readonly washLossG: number;
}

function gradedRows(sorted: readonly Fraction[], { basis, totalG, washLossG }: Totals): GradedFraction[] {
  const netsG = sorted.map((f) => f.netG);
  const coarserG = netsG.map((_, i) => sumG(netsG.slice(0, i + 1)));
  const passing = basis === "charge" ? passingOfCharge(coarserG, totalG) : passingOfRecovered(netsG, washLossG, totalG);
  return sorted.map(({ apertureUm, emptyG, fullG, netG, meanUm }, i) => {
    const isPan = apertureUm === 0;
    const retainedPct = pctOf(isPan ? sumG([netG, washLossG]) : netG, totalG);
    const coarserPct = isPan ? 100 : Math.min(100, pctOf(coarserG[i] ?? 0, totalG));
    const passingPct = isPan ? 0 : (passing[i] ?? 0);
    const row = { apertureUm, emptyG, fullG, netG, retainedPct, coarserPct, passingPct };
    return meanUm === undefined ? row : { ...row, meanUm };
  });
}

/** Charge (washed: dry mass after washing) minus recovered, in g and as % of the former; null where it is unknown. */
function closure(startG: number | null, recoveredG: number): Pick<Grading, "lossG" | "lossPct"> {
  if (startG === null) return { lossG: null, lossPct: null };
  const lossG = netMassG(startG, recoveredG);
  return { lossG, lossPct: pctOf(lossG, startG) };
}

/**
 * Masses to percentages by mass, coarsest sieve first, the pan last.
 *
 *     retained_i = 100 m_i / B,   coarser_i = retained_1 + ... + retained_i,   passing_i = 100 - coarser_i
 *     loss % = 100 (M - recovered) / M
 *
 * B is the recovered total or the charge (CP-1). A washed test: the charge is the dry mass before washing, the wash
 * loss (charge - washed) joins the pan's percentages (its net mass stays as weighed) and the recovered basis, and the
 * closure is on the dry mass after washing: M = washed, else M = charge. With the charge as basis what was lost counts
 * as passing the finest sieve; a gain passes 0 %. Nothing is rounded.
 *
 * @param fractions sieves and the pan (aperture 0) in any order, net masses in g
 * @returns the grading, or in words why there is none and what to do
 * @source ASTM C136, C117; AASHTO T 27, T 11; EN 933-1 (memory); conventions CP-1
 */
export function grade(fractions: readonly Fraction[], masses: GradingMasses): Outcome<Grading> {
  const fault = gradingFault(fractions, masses);
  if (fault) return refused(fault);
  const { basis, chargeG, washedG } = masses;
  const sorted = fractions.toSorted((a, b) => b.apertureUm - a.apertureUm);
  const recoveredG = sumG(sorted.map((f) => f.netG));
  const washLossG = chargeG === null || washedG === null ? 0 : netMassG(chargeG, washedG);
  const totalG = basis === "charge" && chargeG !== null ? chargeG : sumG([recoveredG, washLossG]);
  const rows = gradedRows(sorted, { basis, totalG, washLossG });
  const loss = closure(washedG ?? chargeG, recoveredG);
  return accepted({ basis, chargeG, recoveredG, washLossG, totalG, ...loss, rows });
}
