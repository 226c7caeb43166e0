import { type Determination, determined, undetermined } from "../../record/determination.ts";
import type { PartitionSizes } from "./partitionSize.ts";

export interface Sharpness {
  readonly probableErrorUm: Determination;
  readonly imperfection: Determination;
  readonly sharpness: Determination;
}

interface NamedSize {
  readonly name: string;
  readonly found: Determination;
}

function fromSizes(
  sizes: readonly NamedSize[],
  { unit, told, work }: { unit: string; told: readonly string[]; work: (...sizesUm: number[]) => number },
): Determination {
  const missing = sizes.flatMap(({ name, found }) => (found.determinable ? [] : [`${name}: ${found.reason}`]));
  if (missing[0] !== undefined) return undetermined(missing[0]);
  const known = sizes.map(({ found }) => found).filter((found) => found.determinable);
  const assumptions = new Set([...known.flatMap((found) => found.assumptions ?? []), ...told]);
  return determined(work(...known.map(({ value }) => value)), unit, [...assumptions]);
}

const coarseSieves = "no class lies between d25 and d75: the cut may be sharper than these sieves can show";

function toldOf({ d25, d75 }: PartitionSizes, classSizesUm: readonly number[]): readonly string[] {
  if (!d25.determinable || !d75.determinable) return [];
  return classSizesUm.some((um) => um > d25.value && um < d75.value) ? [] : [coarseSieves];
}

/**
 * How sharply a deck cuts, from the sizes of which 25, 50 and 75 % report to the oversize:
 * `probable error = (d75 - d25)/2` in um; `imperfection = (d75 - d25)/(2 d50)`, 0 for a perfect cut;
 * `sharpness = d25/d75`, 1 for a perfect cut.
 * @param classSizesUm the middles of the classes that the partition curve runs through
 * @returns each, with the assumptions of the sizes; or the reason why one of the sizes is not known
 * @source Tromp; Wills, Mineral Processing Technology (both memory)
 */
export function sharpnessOf(sizes: PartitionSizes, classSizesUm: readonly number[]): Sharpness {
  const [d25, d50, d75] = [
    { name: "d25", found: sizes.d25 },
    { name: "the cut size", found: sizes.d50 },
    { name: "d75", found: sizes.d75 },
  ];
  const told = toldOf(sizes, classSizesUm);
  return {
    probableErrorUm: fromSizes([d25, d75], { unit: "um", told, work: (fine, coarse) => (coarse - fine) / 2 }),
    imperfection: fromSizes([d25, d75, d50], {
      unit: "1",
      told,
      work: (fine, coarse, cut) => (coarse - fine) / (2 * cut),
    }),
    sharpness: fromSizes([d25, d75], { unit: "1", told, work: (fine, coarse) => fine / coarse }),
  };
}
