// Empty sieves on a balance, test after test: grains lodge in the mesh and are brushed out again. Knows nothing of the
// program.
import type { EmptyWeighing, TareHistory } from "../../../src/care/tare/history.ts";
import type { Chance } from "./chance.ts";

/** One sieve: how it goes wrong, if it does. */
export interface Fate {
  readonly apertureUm: number;
  /** From which test on the brush leaves this mass more in the mesh each time. */
  readonly blinds?: { readonly from: number; readonly gPerTest: number };
  /** From which test on the sieve weighs this much otherwise. */
  readonly steps?: { readonly from: number; readonly byG: number };
  /** Mass that the wires lose with each test. */
  readonly wearsGPerTest?: number;
}

/** What the balance does to every reading from a test on. */
export interface BalanceFault {
  readonly from: number;
  readonly addsG?: number;
  readonly addsPart?: number;
}

export const READABILITY_G = 0.01;
/** A good bench: the same sieve again, brush and draught included. */
const REPEATABILITY_G = 0.008;
/** Once in so many weighings a hand slips: a brush left on the pan, a digit mistyped. */
const SLIPS = 0.002;
/** Share of the lodged grains that brushing gets out. */
const BRUSHED_OUT = 0.6;
const HOUR_MS = 3_600_000;

function poisson(mean: number, chance: Chance): number {
  const stop = Math.exp(-mean);
  let count = 0;
  for (let product = chance.even(); product > stop; product *= chance.even()) count++;
  return count;
}

/** Mass of one quartz grain that just sticks in an aperture. */
const grainG = (apertureUm: number) => 2.65e-12 * (Math.PI / 6) * apertureUm ** 3;

const startOf = (k: number) => new Date(Date.UTC(2026, 0, 1) + k * 3 * HOUR_MS).toISOString();

/** Grains that lodge in one test: few come one by one, the number of many scatters about as its root. */
const lodging = (mean: number, chance: Chance): number =>
  mean < 30 ? poisson(mean, chance) : Math.max(0, chance.normal(mean, Math.sqrt(mean) * 3));

/** What has happened to the sieve for good by a test, in g. */
function changedG({ blinds, steps, wearsGPerTest = 0 }: Fate, k: number): number {
  const stuckG = blinds ? Math.max(0, k - blinds.from + 1) * blinds.gPerTest : 0;
  return stuckG + (steps && k >= steps.from ? steps.byG : 0) - k * wearsGPerTest;
}

const addedBy = (fault: BalanceFault | null, massG: number, k: number): number =>
  fault && k >= fault.from ? (fault.addsG ?? 0) + massG * (fault.addsPart ?? 0) : 0;

function weighingsOf(
  fate: Fate,
  air: readonly number[],
  fault: BalanceFault | null,
  chance: Chance,
  slips: (test: number) => void,
  scatterG: number,
) {
  const cleanG = 350 + 0.02 * fate.apertureUm + 60 * chance.even();
  const ownG = grainG(fate.apertureUm);
  const lodgedAtOnce = fate.apertureUm === 0 ? 0 : Math.min(400, 0.012 / ownG);
  let lodgedG = 0;
  return air.map((airG, k): EmptyWeighing => {
    lodgedG = (lodgedG + lodging(lodgedAtOnce, chance) * ownG) * (1 - BRUSHED_OUT);
    const trueG = cleanG + lodgedG + changedG(fate, k);
    const slipG = chance.even() < SLIPS ? chance.normal(0, 5) : 0;
    if (slipG !== 0) slips(k + 1);
    const readG = trueG + addedBy(fault, trueG, k) + airG + slipG + chance.normal(0, scatterG);
    return { at: startOf(k), round: `t${k}`, emptyG: Math.round(readG / READABILITY_G) * READABILITY_G };
  });
}

/**
 * A stack weighed empty so many times in a row; air and warmth move all readings a little, slowly.
 *
 * @param slipped filled with the serial and test of every slip of the hand
 * @param scatterG standard deviation of weighing the same sieve again
 */
export function weighedEmpty(
  fates: readonly Fate[],
  tests: number,
  chance: Chance,
  fault: BalanceFault | null = null,
  slipped: Set<string> = new Set(),
  scatterG: number = REPEATABILITY_G,
): TareHistory[] {
  let drift = 0;
  const air = Array.from({ length: tests }, () => {
    drift = 0.9 * drift + chance.normal(0, 0.002);
    return drift;
  });
  return fates.map((fate, i) => {
    const serial = `S-${fate.apertureUm}-${i}`;
    const weighings = weighingsOf(fate, air, fault, chance, (test) => slipped.add(`${serial} ${test}`), scatterG);
    return { serial, apertureUm: fate.apertureUm, weighings };
  });
}

export const STACK_UM = [1400, 1000, 710, 500, 355, 250, 0] as const;
export const healthy = (): Fate[] => STACK_UM.map((apertureUm) => ({ apertureUm }));

/** The histories as they stood after so many tests. */
export const upTo = (histories: readonly TareHistory[], tests: number): TareHistory[] =>
  histories.map((history) => ({ ...history, weighings: history.weighings.slice(0, tests) }));
