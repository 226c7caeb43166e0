import type { Grading } from "../../grading/grading.ts";
import { boundsOf, type Measurand } from "../measurand.ts";
import { type BlockFigures, blockFigures } from "./blockFigures.ts";
import type { DrawnCurve } from "./drawCurve.ts";
import { numericalTolerance } from "./numericalTolerance.ts";
import type { Reader } from "./readers.ts";

/** One number that is read off every draw, and what each block of draws said of it. */
export interface Tally {
  readonly on: Measurand;
  readonly unit: string;
  readonly read: Reader;
  readonly drawn: Float64Array;
  readonly blocks: BlockFigures[];
}

/** The draws are to be five times finer than the tolerance that the comparison with first order allows. */
const FINER = 5;

const SETTLING = ["mean", "u", "low", "high"] as const;

/** Mean over the blocks of one figure. */
export const overBlocks = ({ blocks }: Tally, figure: keyof BlockFigures): number =>
  blocks.reduce((sum, block) => sum + block[figure], 0) / Math.max(1, blocks.length);

/** Standard uncertainty of that mean. */
function wobble(tally: Tally, figure: keyof BlockFigures): number {
  const h = tally.blocks.length;
  const mean = overBlocks(tally, figure);
  const squares = tally.blocks.reduce((sum, block) => sum + (block[figure] - mean) ** 2, 0);
  return Math.sqrt(squares / (h * (h - 1)));
}

/**
 * Whether mean, u and both ends stand still: twice their standard uncertainty over the blocks is within a fifth of the
 * numerical tolerance of u. Never after one block.
 *
 * @source JCGM 101:2008 clauses 7.9.4 and 8.2 (memory)
 */
export function isSettled(tally: Tally, digits: number): boolean {
  const u = overBlocks(tally, "u");
  if (u === 0) return true;
  const allowed = numericalTolerance(u, digits) / FINER;
  return tally.blocks.length > 1 && SETTLING.every((figure) => 2 * wobble(tally, figure) <= allowed);
}

/** Where draws come from: the next curve, and its grading for the numbers that need one. */
export interface Source {
  readonly next: () => DrawnCurve;
  readonly grading: (drawn: DrawnCurve) => () => Grading | null;
}

/** Draws one block, reads every number off every draw and keeps the figures of the block. */
export function drawBlock(tallies: readonly Tally[], draws: number, source: Source): void {
  const got = new Int32Array(tallies.length);
  for (let i = 0; i < draws; i++) {
    const drawn = source.next();
    const grading = source.grading(drawn);
    for (let t = 0; t < tallies.length; t++) {
      const number = tallies[t]?.read(drawn, grading) ?? null;
      if (number !== null) keep(tallies[t], got, t, number);
    }
  }
  for (const [t, { drawn, blocks, unit }] of tallies.entries()) {
    const count = got[t] ?? 0;
    if (count > 0) blocks.push(blockFigures(drawn.subarray(0, count), draws - count, boundsOf(unit)));
  }
}

function keep(tally: Tally | undefined, got: Int32Array, t: number, number: number): void {
  const count = got[t] ?? 0;
  if (tally) tally.drawn[count] = number;
  got[t] = count + 1;
}
