import type { Curve } from "../grading/curve.ts";
import { READINGS } from "../grading/interpolation/readings.ts";
import type { IndexRow } from "../record/indexRow.ts";
import type { Interpolation } from "../record/product.ts";

/** The passing curve of a recorded test as the index keeps it. */
export interface TestCurve {
  /** Coarsest first. */
  readonly points: readonly { readonly apertureUm: number; readonly passingPct: number }[];
  /** Passing % between the sieves; null beyond them, where nothing is known. */
  readonly passingAt: (sizeUm: number) => number | null;
}

/** The curve of one test through its sieves, read between them as its product says; in um and %. */
export function curveOfRow({ passingPct }: Pick<IndexRow, "passingPct">, interpolation: Interpolation): TestCurve {
  const apertureUm = Object.keys(passingPct)
    .map(Number)
    .toSorted((a, b) => a - b);
  const pcts = apertureUm.map((um) => passingPct[`${um}`] ?? 0);
  const curve: Curve = { apertureUm, lnAperture: apertureUm.map(Math.log), passingPct: pcts };
  return {
    points: apertureUm.map((um, i) => ({ apertureUm: um, passingPct: pcts[i] ?? 0 })).toReversed(),
    passingAt: (sizeUm) => {
      const above = apertureUm.findIndex((um) => um >= sizeUm);
      if (above < 0 || (above === 0 && apertureUm[0] !== sizeUm)) return null;
      return apertureUm[above] === sizeUm
        ? (pcts[above] ?? null)
        : READINGS[interpolation].passingPct(curve, above - 1, sizeUm);
    },
  };
}
