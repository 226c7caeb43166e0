import type { BalanceConditions } from "../conditions.ts";
import { chargeAt, type Graded, isWashed, massCount, panAt, washedAt } from "../graded.ts";

/** One reading of the balance and how it enters each mass (order of `Masses`): +1 full, -1 empty, and so on. */
export type Reading = Float64Array;

function reading(graded: Graded, entries: readonly (readonly [at: number, times: number])[]): Reading {
  const byMass = new Float64Array(massCount(graded));
  for (const [at, times] of entries) byMass[at] = times;
  if (graded.panAssumed) byMass[panAt(graded)] = panLeftOver(graded, byMass);
  return byMass;
}

type Weighed = Pick<BalanceConditions, "tare" | "portions" | "sharedEmptyUm">;

/** A pan that was not weighed is the mass put on the stack less what the sieves hold. */
function panLeftOver(graded: Graded, byMass: Float64Array): number {
  const start = byMass[isWashed(graded) ? washedAt(graded) : chargeAt(graded)] ?? 0;
  return byMass.subarray(0, panAt(graded)).reduce((left, times) => left - times, start);
}

/** The rows that stood on the balance. */
const weighedRows = (graded: Graded): number[] =>
  graded.grading.rows.map((_, row) => row).filter((row) => !(graded.panAssumed && row === panAt(graded)));

/** Full readings, one a portion; all rows of one portion are separate readings. */
const fullReadings = (graded: Graded, portions: number): Reading[] =>
  weighedRows(graded).flatMap((row) => Array.from({ length: portions }, () => reading(graded, [[row, 1]])));

/** The empty readings: one a sieve, or one of the common vessel, which every net mass takes off once a portion. */
function emptyReadings(graded: Graded, { portions = 1, tare = "each", sharedEmptyUm = [] }: Weighed): Reading[] {
  const rows = weighedRows(graded);
  const isShared = (row: number): boolean => sharedEmptyUm.includes(graded.grading.rows[row]?.apertureUm ?? -1);
  if (tare === "each") return rows.filter((row) => !isShared(row)).map((row) => reading(graded, [[row, -portions]]));
  return [
    reading(
      graded,
      rows.map((row) => [row, -portions]),
    ),
  ];
}

/** The charge and the dry mass after washing, each full less its vessel. */
function dryMassReadings(graded: Graded): Reading[] {
  const at = [
    ...(graded.grading.chargeG === null ? [] : [chargeAt(graded)]),
    ...(isWashed(graded) ? [washedAt(graded)] : []),
  ];
  return at.flatMap((mass) => [reading(graded, [[mass, 1]]), reading(graded, [[mass, -1]])]);
}

/**
 * All readings of the balance that a test rests on. A net mass is the sum of its full readings less its empty reading
 * once a portion, so an empty reading that several portions or several rows share enters them all.
 */
export function readingsOf(graded: Graded, weighed: Weighed = {}): Reading[] {
  return [
    ...fullReadings(graded, weighed.portions ?? 1),
    ...emptyReadings(graded, weighed),
    ...dryMassReadings(graded),
  ];
}
