// Invented materials, each made as such a material comes about, none by a curve that the program itself fits.

/** Shares of mass in narrow classes of grain size. */
export interface Material {
  readonly name: string;
  readonly sizesUm: readonly number[];
  readonly shares: readonly number[];
  readonly stackUm: readonly number[];
  readonly chargeG: number;
  readonly densityGPerUm3: number;
}

const CLASSES = 260;
const QUARTZ = 2.65e-12;

const grid = (fromUm: number, toUm: number): number[] =>
  Array.from({ length: CLASSES }, (_, i) => fromUm * (toUm / fromUm) ** (i / (CLASSES - 1)));

const bell = (um: number, medianUm: number, ratio: number): number =>
  Math.exp(-0.5 * (Math.log(um / medianUm) / Math.log(ratio)) ** 2) / Math.log(ratio);

function normed(shares: readonly number[]): number[] {
  const sum = shares.reduce((a, b) => a + b, 0);
  return shares.map((share) => share / sum);
}

/** Two floods that left sand of different spread. */
function riverSand(): Material {
  const sizesUm = grid(30, 4000);
  const shares = normed(sizesUm.map((um) => 0.85 * bell(um, 430, 1.6) + 0.15 * bell(um, 300, 2.1)));
  const stackUm = [1400, 1000, 710, 500, 355, 250, 180, 125];
  return { name: "river sand", sizesUm, shares, stackUm, chargeG: 200, densityGPerUm3: QUARTZ };
}

/** Broad sand over two decks that let near-size grains go either way. */
function screenedSand(): Material {
  const sizesUm = grid(100, 3000);
  const passes = (um: number, cutUm: number, sharpness: number) => 1 / (1 + (um / cutUm) ** sharpness);
  const shares = normed(sizesUm.map((um) => bell(um, 800, 2) * passes(um, 980, 9) * (1 - 0.985 * passes(um, 520, 7))));
  const stackUm = [1400, 1000, 850, 710, 600, 500, 355];
  return { name: "screened sand", sizesUm, shares, stackUm, chargeG: 250, densityGPerUm3: QUARTZ };
}

/** Share of the daughters of a broken grain that are finer than a share of its size. */
const finerDaughters = (ratio: number): number => 0.45 * ratio ** 0.6 + 0.55 * ratio ** 3.2;

/** Rock broken blow by blow: coarse grains are hit more often, and each falls apart into a spread of daughters. */
function crushedRock(): Material {
  const sizesUm = grid(20, 8000);
  let shares = sizesUm.map((um) => bell(um, 6000, 1.15));
  for (let blow = 0; blow < 14; blow++) {
    const hit = shares.map((share, i) => share * 0.35 * ((sizesUm[i] ?? 0) / 8000) ** 0.9);
    const next = shares.map((share, i) => share - (hit[i] ?? 0));
    hit.forEach((mass, parent) => {
      for (let i = 0; i <= parent; i++) {
        const [here = 1, whole = 1] = [sizesUm[i], sizesUm[parent]];
        const below = i === 0 ? 0 : finerDaughters((sizesUm[i - 1] ?? 0) / whole);
        next[i] = (next[i] ?? 0) + mass * (finerDaughters(here / whole) - below);
      }
    });
    shares = next;
  }
  const stackUm = [5600, 4000, 2800, 2000, 1400, 1000, 710, 500];
  return { name: "crushed rock", sizesUm, shares: normed(shares), stackUm, chargeG: 800, densityGPerUm3: QUARTZ };
}

/** Two sands blended: the curve has a shelf, which no curve through neighbours can know of. */
function blendedSand(): Material {
  const sizesUm = grid(30, 4000);
  const shares = normed(sizesUm.map((um) => bell(um, 260, 1.22) + bell(um, 850, 1.22)));
  const stackUm = [1400, 1000, 710, 500, 355, 250, 180, 125];
  return { name: "blend of two sands", sizesUm, shares, stackUm, chargeG: 200, densityGPerUm3: QUARTZ };
}

export const MATERIALS = [riverSand(), screenedSand(), crushedRock()] as const;
export const BLEND = blendedSand();
