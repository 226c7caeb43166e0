import { type Determination, undetermined } from "../../record/determination.ts";
import type { Material } from "../../record/product.ts";
import type { Grading, GradingChoices } from "../grading.ts";
import { remembered } from "../remembered.ts";
import { type SizeClasses, sizeClasses } from "../sizeClasses.ts";
import { computed } from "./computed.ts";
import { weighted } from "./fromClasses.ts";

/** Geometric mean diameter by mass in um and the natural logarithm of the geometric standard deviation. */
interface LogSpread {
  readonly meanUm: number;
  readonly lnDeviation: number;
}

/** `ln d_gw = sum W ln d`, `s = sqrt(sum W (ln d - ln d_gw)^2)`; the base of the logarithm does not matter. */
const logSpreadOf = remembered(({ classes }: SizeClasses): LogSpread => {
  const lnMean = weighted(classes, Math.log);
  const variance = weighted(classes, (sizeUm) => (Math.log(sizeUm) - lnMean) ** 2);
  const [only] = classes;
  const meanUm = classes.length === 1 && only ? only.sizeUm : Math.exp(lnMean);
  return { meanUm, lnDeviation: Math.sqrt(variance) };
});

interface On {
  readonly grading: Grading;
  readonly choices: GradingChoices;
}

/** A value made of the geometric mean and deviation of the size classes. */
export function fromLogSpread(
  { grading, choices }: On,
  unit: string,
  combine: (spread: LogSpread) => number,
): Determination {
  const found = sizeClasses(grading, choices, "geometric");
  if (!found.ok) return undetermined(found.reason);
  return computed(combine(logSpreadOf(found.value)), unit, found.value.assumptions);
}

/** Density in g/cm3 and the shape factors of the grains. */
interface Grains {
  readonly densityGCm3: number;
  readonly surfaceShape: number;
  readonly volumeShape: number;
}

function grainsOf(material: Material, densityKgM3: number): Grains {
  const { surfaceShapeFactor: surfaceShape = 6, volumeShapeFactor: volumeShape = 1 } = material;
  return { densityGCm3: densityKgM3 / 1000, surfaceShape, volumeShape };
}

const shapeTold = ({ surfaceShapeFactor, volumeShapeFactor }: Material): string[] =>
  surfaceShapeFactor === undefined && volumeShapeFactor === undefined ? ["shape: cubes (shape factors 6 and 1)"] : [];

/** A value per gram of grains; needs their density, which is never assumed. `meanCm` is d_gw in cm. */
export function fromGrains(
  { grading, choices }: On,
  unit: string,
  combine: (grains: Grains, meanCm: number, lnDeviation: number) => number,
): Determination {
  const { material } = choices;
  if (material.particleDensityKgM3 === undefined) return undetermined("needs the particle density of the product");
  const grains = grainsOf(material, material.particleDensityKgM3);
  const found = sizeClasses(grading, choices, "geometric");
  if (!found.ok) return undetermined(found.reason);
  const { meanUm, lnDeviation } = logSpreadOf(found.value);
  return computed(combine(grains, meanUm / 1e4, lnDeviation), unit, [
    ...shapeTold(material),
    ...found.value.assumptions,
  ]);
}
