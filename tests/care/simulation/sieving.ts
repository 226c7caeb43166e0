// A stack of sieves as a sequence of chances to fall through, weighed on a balance. Knows nothing of the program.
import type { StackTest } from "../../../src/care/effective/tests.ts";
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

/** Chance that a grain of a size stays on a sieve: it passes if any offer is met, and only if it is small enough. */
export function stayingOn(apertureUm: number, sizesUm: readonly number[], offers = OFFERS): number[] {
  const pitchUm = apertureUm + wireUm(apertureUm);
  return sizesUm.map((um) => {
    const met = SCATTER_NODES.reduce((sum, z, i) => {
      const gapUm = Math.max(0, apertureUm * (1 + APERTURE_SCATTER * z) - um);
      return sum + ((SCATTER_WEIGHTS[i] ?? 0) / WEIGHT_SUM) * (gapUm / pitchUm) ** 2;
    }, 0);
    return (1 - met) ** offers;
  });
}

const weighed = (grams: number) => Math.round(grams / READABILITY_G) * READABILITY_G;

/** What lies on each sieve (the pan last) of a charge, before any chance: shares of the charge. */
function shareOnEach(
  shares: readonly number[],
  staying: readonly (readonly number[])[],
): { share: number; grainUm3: number; sizesUm: null }[] {
  let falling = shares;
  const held = staying.map((stay) => {
    const kept = falling.map((share, i) => share * (stay[i] ?? 0));
    falling = falling.map((share, i) => share - (kept[i] ?? 0));
    return kept;
  });
  return [...held, falling].map((kept) => ({ share: kept.reduce((a, b) => a + b, 0), grainUm3: 0, sizesUm: null }));
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

/** So many tests in a row of a material on sieves of these true mean apertures, coarsest first. */
export function routineTests(
  material: Material,
  trueUm: readonly number[],
  tests: number,
  chance: Chance,
  offers = OFFERS,
): StackTest[] {
  const staying = trueUm.map((um) => stayingOn(um, material.sizesUm, offers));
  let [lotMove, lotWidth] = [0, 0];
  return Array.from({ length: tests }, (_, k) => {
    if (k % TESTS_A_LOT === 0) {
      lotMove = 0.8 * lotMove + chance.normal(0, 0.018);
      lotWidth = 0.8 * lotWidth + chance.normal(0, 0.012);
    }
    const met = wandered(material, Math.exp(lotMove + chance.normal(0, 0.008)), 1 + lotWidth + chance.normal(0, 0.006));
    const onEach = shareOnEach(met, staying);
    const nets = onEach.map(({ share }, i) => {
      const grainUm = trueUm[i] ?? (trueUm.at(-1) ?? 100) / 2;
      const grainG = material.densityGPerUm3 * (Math.PI / 6) * (1.2 * grainUm) ** 3;
      const massG = share * material.chargeG * (1 - 0.0008);
      // Splitting deals out grains, a few at a time.
      const dealt =
        massG + chance.normal(0, Math.sqrt(Math.max(0, massG) * grainG * 4)) + massG * chance.normal(0, 0.006);
      return Math.max(0, weighed(dealt + chance.normal(0, READABILITY_G)));
    });
    const total = nets.reduce((a, b) => a + b, 0);
    let coarser = 0;
    const sieves = material.stackUm.map((apertureUm, i) => {
      coarser += nets[i] ?? 0;
      return { apertureUm, passingPct: 100 * (1 - coarser / total) };
    });
    return { at: new Date(Date.UTC(2026, 0, 1) + k * 3 * 3_600_000).toISOString(), sieves };
  });
}
