// A stack of sieves as a sequence of chances to fall through, weighed on a balance. Knows nothing of the program.
import type { PairedRuns } from "../../../src/care/comparison/compareStacks.ts";
import type { SievePassing, StackTest } from "../../../src/care/effective/tests.ts";
import type { Chance } from "./chance.ts";
import type { Material } from "./materials.ts";

/** How often a grain is offered to an aperture while it is shaken. */
const OFFERS = 900;
/** Apertures of one cloth scatter by this part of their mean. */
const APERTURE_SCATTER = 0.03;
const SCATTER_NODES = [-1.8, -1.2, -0.6, 0, 0.6, 1.2, 1.8];
const SCATTER_WEIGHTS = SCATTER_NODES.map((z) => Math.exp(-z * z * 0.5));
const WEIGHT_SUM = SCATTER_WEIGHTS.reduce((a, b) => a + b, 0);
const wireUm = (um: number) => 0.75 * um ** 0.985;
const READABILITY_G = 0.01;

const known = new WeakMap<readonly number[], Map<number, number[]>>();

/** Chance that a grain of a size stays on a sieve; worked out once for each sieve and material. */
export function stayingOn(apertureUm: number, sizesUm: readonly number[]): number[] {
  const bySieve = known.get(sizesUm) ?? new Map<number, number[]>();
  known.set(sizesUm, bySieve);
  const staying = bySieve.get(apertureUm) ?? stays(apertureUm, sizesUm);
  if (bySieve.size < 100) bySieve.set(apertureUm, staying);
  return staying;
}

/** A grain passes if any offer is met, and only if it is small enough for the aperture that it is offered to. */
function stays(apertureUm: number, sizesUm: readonly number[]): number[] {
  const pitchUm = apertureUm + wireUm(apertureUm);
  return sizesUm.map((um) => {
    const met = SCATTER_NODES.reduce((sum, z, i) => {
      const gapUm = Math.max(0, apertureUm * (1 + APERTURE_SCATTER * z) - um);
      return sum + ((SCATTER_WEIGHTS[i] ?? 0) / WEIGHT_SUM) * (gapUm / pitchUm) ** 2;
    }, 0);
    return (1 - met) ** OFFERS;
  });
}

const weighed = (grams: number) => Math.round(grams / READABILITY_G) * READABILITY_G;

/** What lies on each sieve (the pan last) of a charge, before any chance: shares of the charge. */
function shareOnEach(shares: readonly number[], staying: readonly (readonly number[])[]): number[] {
  let falling = shares;
  const held = staying.map((stay) => {
    const kept = falling.map((share, i) => share * (stay[i] ?? 0));
    falling = falling.map((share, i) => share - (kept[i] ?? 0));
    return kept;
  });
  return [...held, falling].map((kept) => kept.reduce((a, b) => a + b, 0));
}

/** The material as one test meets it: all sizes times a factor, and its spread widened or narrowed about the middle. */
function wandered(material: Material, factor: number, widening: number): number[] {
  const { sizesUm, shares } = material;
  const step = Math.log((sizesUm[1] ?? 2) / (sizesUm[0] ?? 1));
  const middle = sizesUm.reduce((sum, um, i) => sum + (shares[i] ?? 0) * Math.log(um), 0);
  const moved = shares.map(() => 0);
  shares.forEach((share, i) => {
    const ln = middle + (Math.log(sizesUm[i] ?? 1) - middle) * widening + Math.log(factor);
    const at = Math.min(shares.length - 1.001, Math.max(0, (ln - Math.log(sizesUm[0] ?? 1)) / step));
    const low = Math.floor(at);
    moved[low] = (moved[low] ?? 0) + share * (1 - (at - low));
    moved[low + 1] = (moved[low + 1] ?? 0) + share * (at - low);
  });
  return moved;
}

const TESTS_A_LOT = 3;
const LOST = 0.0008;

/** What so many tests in a row meet: lots differ, and resemble the lot before; samples of a lot differ a little. */
function met(material: Material, tests: number, chance: Chance): number[][] {
  let [lotMove, lotWidth] = [0, 0];
  return Array.from({ length: tests }, (_, k) => {
    if (k % TESTS_A_LOT === 0) {
      lotMove = 0.8 * lotMove + chance.normal(0, 0.018);
      lotWidth = 0.8 * lotWidth + chance.normal(0, 0.012);
    }
    return wandered(material, Math.exp(lotMove + chance.normal(0, 0.008)), 1 + lotWidth + chance.normal(0, 0.006));
  });
}

/** One portion split, sieved and weighed on sieves of these true mean apertures, coarsest first. */
function passings(
  material: Material,
  shares: readonly number[],
  trueUm: readonly number[],
  staying: readonly (readonly number[])[],
  chance: Chance,
): SievePassing[] {
  const nets = shareOnEach(shares, staying).map((share, i) => {
    const grainUm = 1.2 * (trueUm[i] ?? (trueUm.at(-1) ?? 100) / 2);
    const grainG = material.densityGPerUm3 * (Math.PI / 6) * grainUm ** 3;
    const massG = share * material.chargeG * (1 - LOST);
    // Splitting deals out grains, a few at a time.
    const grains = chance.normal(0, Math.sqrt(Math.max(0, massG) * grainG * 4));
    return Math.max(0, weighed(massG + grains + massG * chance.normal(0, 0.006) + chance.normal(0, READABILITY_G)));
  });
  const total = nets.reduce((a, b) => a + b, 0);
  let coarser = 0;
  return material.stackUm.map((apertureUm, i) => {
    coarser += nets[i] ?? 0;
    return { apertureUm, passingPct: 100 * (1 - coarser / total) };
  });
}

const THREE_HOURS_MS = 3 * 3_600_000;
const startOf = (k: number) => new Date(Date.UTC(2026, 0, 1) + k * THREE_HOURS_MS).toISOString();

/** So many tests in a row of a material on sieves of these true mean apertures, coarsest first. */
export function routineTests(
  material: Material,
  trueUm: readonly number[],
  tests: number,
  chance: Chance,
): StackTest[] {
  const staying = trueUm.map((um) => stayingOn(um, material.sizesUm));
  return met(material, tests, chance).map((shares, k) => ({
    at: startOf(k),
    sieves: passings(material, shares, trueUm, staying, chance),
  }));
}

/** The same portions on a working stack and on a master stack. */
export function onBoth(
  material: Material,
  workingUm: readonly number[],
  masterUm: readonly number[],
  portions: number,
  chance: Chance,
): PairedRuns[] {
  const [working, master] = [workingUm, masterUm].map((stack) => stack.map((um) => stayingOn(um, material.sizesUm)));
  return met(material, portions, chance).map((shares) => ({
    working: passings(material, shares, workingUm, working ?? [], chance),
    master: passings(material, shares, masterUm, master ?? [], chance),
  }));
}
