import { grade } from "../../../src/grading/grade.ts";
import type { Grading } from "../../../src/grading/grading.ts";
import { toleranceByFormula } from "../../../src/series/tolerance.ts";
import type { Conditions } from "../../../src/uncertainty/conditions.ts";
import { normalFrom, poissonFrom, type Random } from "./chance.ts";
import { grainG, type Lot, truePassing } from "./materials.ts";

/** How the invented laboratory works; the budget is told the same, and nothing else. */
export interface Laboratory {
  /** Sieves with certificates (U of 1 % of the aperture), or any sieves that meet the tolerance of the series. */
  readonly sieves: "certified" | "within tolerance" | "perfect";
  readonly mostLostPct: number;
  readonly remainderPct: number;
}

export const CERTIFIED_U_SHARE = 0.01;

export const conditionsOf = (lot: Lot, laboratory: Laboratory): Conditions => ({
  balance: {
    readabilityG: lot.stepG,
    repeatabilityG: lot.stepG,
    linearityG: 2 * lot.stepG,
    driftG: 2 * lot.stepG,
  },
  ...(laboratory.sieves === "perfect"
    ? {}
    : {
        apertures: {
          known:
            laboratory.sieves === "certified"
              ? lot.sievesUm.map((um) => ({ apertureUm: um, meanUm: um, expandedUm: CERTIFIED_U_SHARE * um }))
              : [],
        },
      }),
  material: { particleDensityKgM3: lot.densityKgM3 },
  endPoint: { remainderPct: laboratory.remainderPct },
});

/** The apertures that a stack really has. */
function realUm(lot: Lot, { sieves }: Laboratory, random: Random): number[] {
  return lot.sievesUm.map((um) => {
    if (sieves === "perfect") return um;
    if (sieves === "certified") return um * (1 + (CERTIFIED_U_SHARE / 2) * normalFrom(random));
    return um + (toleranceByFormula(um)?.meanUm ?? 0) * (2 * random() - 1);
  });
}

const BIN_LN = 0.02;

/** Grains of one stretch of sizes in a charge: counted in narrow bins, each grain weighed. */
function drawnG(lot: Lot, chargeG: number, fromUm: number, toUm: number, random: Random): number {
  const bins = Math.max(1, Math.ceil(Math.log(toUm / fromUm) / BIN_LN));
  const ratio = (toUm / fromUm) ** (1 / bins);
  let [low, passing, sumG] = [fromUm, truePassing(lot, fromUm), 0];
  for (let b = 0; b < bins; b++) {
    const next = truePassing(lot, low * ratio);
    const oneG = grainG(lot, low * Math.sqrt(ratio));
    const shareG = chargeG * (next - passing);
    if (shareG > 0) sumG += oneG * poissonFrom(shareG / oneG, random);
    [low, passing] = [low * ratio, next];
  }
  return sumG;
}

/** What really lies on each sieve and in the pan after shaking. */
function sieved(lot: Lot, chargeG: number, laboratory: Laboratory, random: Random): number[] {
  const cuts = [1e5, ...realUm(lot, laboratory, random), 5];
  const held = cuts.slice(1).map((um, i) => drawnG(lot, chargeG, um, cuts[i] ?? 0, random));
  const kept = (laboratory.remainderPct / 100) * chargeG * random();
  for (let i = 0; i + 1 < held.length; i++) {
    const back = Math.min(kept, held[i + 1] ?? 0);
    if ((held[i] ?? 0) > 0) {
      held[i] = (held[i] ?? 0) + back;
      held[i + 1] = (held[i + 1] ?? 0) - back;
    }
  }
  return held;
}

/** Something is lost: dust from the pan every other time, else a spill from whatever fraction, large ones more often. */
function spill(held: number[], mostG: number, random: Random): void {
  const lostG = mostG * random();
  const total = held.reduce((sum, g) => sum + g, 0);
  let at = held.length - 1;
  if (random() < 0.5) {
    let left = random() * total;
    for (at = 0; at < held.length - 1 && left >= (held[at] ?? 0); at++) left -= held[at] ?? 0;
  }
  held[at] = (held[at] ?? 0) - Math.min(lostG, held[at] ?? 0);
}

/** One reading: the mass with the zero's shift, the balance's own deviation at this load and its scatter, in steps. */
const reading = (massG: number, zeroG: number, stepG: number, random: Random): number => {
  const off = zeroG + 2 * stepG * (2 * random() - 1) + stepG * normalFrom(random);
  return Math.round((massG + off) / stepG) * stepG;
};

/** One whole test: a charge drawn from the lot, sieved, spilled and weighed; graded as the program grades it. */
export function oneTest(lot: Lot, chargeG: number, laboratory: Laboratory, random: Random): Grading {
  const held = sieved(lot, chargeG, laboratory, random);
  const drawn = held.reduce((sum, g) => sum + g, 0);
  const read = (massG: number, zeroG = 0) => reading(massG, zeroG, lot.stepG, random);
  const weighedChargeG = read(250 + drawn) - read(250);
  spill(held, (laboratory.mostLostPct / 100) * drawn, random);
  const empties = held.map(() => 250 + 200 * random());
  const zeroG = 2 * lot.stepG * (2 * random() - 1);
  const fractions = held.map((netG, i) => {
    const emptyG = empties[i] ?? 0;
    const net = read(emptyG + netG, zeroG) - read(emptyG);
    return { apertureUm: lot.sievesUm[i] ?? 0, emptyG: null, fullG: null, netG: Math.max(0, net) };
  });
  const graded = grade(fractions, { basis: "recovered", chargeG: weighedChargeG, washedG: null });
  if (!graded.ok) throw new Error(graded.reason);
  return graded.value;
}
