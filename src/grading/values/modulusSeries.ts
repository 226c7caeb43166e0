import type { ModulusSeries } from "../../record/product.ts";

interface Series {
  readonly name: string;
  readonly aperturesUm: readonly number[];
}

/**
 * The sieves over which a fineness modulus is summed, finest first, in um.
 *
 * @source ASTM C125/C136 (memory); EN 12620, EN 13139 (memory); Sahay and Singh, Unit Operations of Agricultural
 *   Processing (3/8 in., 4, 8, 14, 28, 48, 100 mesh; seen quoted)
 */
export const MODULUS_SERIES_UM: Readonly<Record<ModulusSeries, Series>> = {
  astm: {
    name: "ASTM series (150 um to 150 mm)",
    aperturesUm: [150, 300, 600, 1180, 2360, 4750, 9500, 19_000, 37_500, 75_000, 150_000],
  },
  en: { name: "EN series (125 um to 4 mm)", aperturesUm: [125, 250, 500, 1000, 2000, 4000] },
  feed: { name: "feed series (150 um to 9.5 mm)", aperturesUm: [150, 300, 600, 1180, 2360, 4750, 9500] },
};
