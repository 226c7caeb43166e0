import type { Grading } from "../../grading/grading.ts";
import { READINGS } from "../../grading/interpolation/readings.ts";
import type { Share } from "../../grading/nominalShare.ts";
import { isOverMeans, standsAtUm } from "../../grading/standsAt.ts";
import { type Graded, panAt, regraded } from "../graded.ts";
import { type Measurand, measured } from "../measurand.ts";
import type { DrawnCurve } from "./drawCurve.ts";

/** Reads one number off a drawn curve; null where that draw has none. */
export type Reader = (drawn: DrawnCurve, graded: () => Grading | null) => number | null;

function shareReader(kind: Share, at: number, sieves: number): Reader {
  if (kind === "passingPct") return ({ passingPct }) => passingPct[at] ?? null;
  if (kind === "coarserPct") return ({ passingPct }) => 100 - (passingPct[at] ?? 0);
  return ({ passingPct }) => (at === sieves - 1 ? 100 : (passingPct[at + 1] ?? 0)) - (passingPct[at] ?? 0);
}

/** Where the sieves stand, finest first. */
function standing(graded: Graded) {
  const apertureUm = graded.grading.rows.slice(0, panAt(graded)).toReversed().map(standsAtUm);
  return { apertureUm, lnAperture: apertureUm.map(Math.log) };
}

/** Passing % at a size of a drawn curve over mean apertures: as `passingAtNominal` reads it. */
function passingReader(sizeUm: number, graded: Graded): (passingPct: readonly number[]) => number | null {
  const { apertureUm, lnAperture } = standing(graded);
  const { passingPct: read } = READINGS[graded.choices.interpolation];
  const above = apertureUm.findIndex((um) => um >= sizeUm);
  if (above < 0) return (passingPct) => (passingPct.at(-1) === 100 ? 100 : null);
  if (apertureUm[above] === sizeUm) return (passingPct) => passingPct[above] ?? null;
  if (above === 0) return (passingPct) => (passingPct[0] === 0 ? 0 : null);
  return (passingPct) => read({ apertureUm, lnAperture, passingPct }, above - 1, sizeUm);
}

/** A share between nominal apertures of a curve over mean ones. */
function nominalReader(kind: Share, row: number, graded: Graded): Reader {
  const { rows } = graded.grading;
  const own = passingReader(rows[row]?.apertureUm ?? 0, graded);
  const coarser = rows[row - 1];
  const above = coarser ? passingReader(coarser.apertureUm, graded) : () => 100;
  return ({ passingPct }) => {
    const pct = own(passingPct);
    if (pct === null || kind === "passingPct") return pct;
    const from = kind === "coarserPct" ? 100 : above(passingPct);
    return from === null ? null : from - pct;
  };
}

function percentileReader(wantedPct: number, graded: Graded): Reader {
  const { apertureUm, lnAperture } = standing(graded);
  const { sizeUm } = READINGS[graded.choices.interpolation];
  return ({ passingPct }) => {
    const k = passingPct.findIndex((pct) => pct >= wantedPct);
    if (k === -1) return null;
    if (passingPct[k] === wantedPct) return apertureUm[k] ?? null;
    return k === 0 ? null : sizeUm({ apertureUm, lnAperture, passingPct }, k - 1, wantedPct);
  };
}

/** Through the grading's own functions: for what has no fast path. */
function throughGrading(on: Measurand, graded: Graded): Reader {
  return (_, drawnGrading) => {
    const grading = drawnGrading();
    const found = grading === null ? null : measured(on, grading, graded);
    return found?.determinable ? found.value : null;
  };
}

/** How a number is read off each draw: shares at sieves of the stack and percentiles fast, all else by a new grading. */
export function readerOf(on: Measurand, graded: Graded): Reader {
  if (on.kind === "percentileUm") return percentileReader(on.passingPct, graded);
  if (on.kind === "value") return throughGrading(on, graded);
  const row = graded.grading.rows.findIndex((r) => r.apertureUm === on.apertureUm && r.apertureUm > 0);
  const sieves = panAt(graded);
  if (row < 0) return throughGrading(on, graded);
  return isOverMeans(graded.grading)
    ? nominalReader(on.kind, row, graded)
    : shareReader(on.kind, sieves - 1 - row, sieves);
}

/** The grading of a draw, worked out when the first reader asks and shared by the others. */
export function gradingOnDemand(graded: Graded, drawn: DrawnCurve): () => Grading | null {
  let made: { readonly grading: Grading | null } | null = null;
  return () => {
    if (made === null) {
      const outcome = regraded(
        graded,
        drawn.masses.map((g) => Math.max(0, g)),
      );
      made = { grading: outcome.ok ? outcome.value : null };
    }
    return made.grading;
  };
}
