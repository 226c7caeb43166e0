import type { GradingChoices } from "../../../src/grading/grading.ts";
import area from "../examples/f-area-number-a.json" with { type: "json" };
import grind from "../examples/f-lognormal-identity.json" with { type: "json" };
import { classesAt, recomputedValues, stackOf } from "../fromExample.ts";
import type { PublishedCheck } from "../record.ts";

interface Figures {
  readonly d_gw_um: number;
  readonly S_gw: number;
  readonly S_gw_um: number;
  readonly surface_cm2_per_g: number;
  readonly particles_per_g: number;
}

const { inputs, recomputed, source } = grind;
const grain = (gCm3: number, surface: number, volume: number) => ({
  particleDensityKgM3: gCm3 * 1000,
  surfaceShapeFactor: surface,
  volumeShapeFactor: volume,
});

function grindChecks(pan: string, figures: Figures, panChoice: Pick<GradingChoices, "pan">): PublishedCheck[] {
  const grading = stackOf(inputs.aperture_um, inputs.net_g, inputs.pan_g);
  const material = grain(inputs.density_g_per_cm3, inputs.beta_s, inputs.beta_v);
  return recomputedValues(
    { source, status: "generated" },
    grading,
    [
      ["geometricMeanDiameterUm", `dgw in um, ${pan}`, figures.d_gw_um],
      ["geometricStandardDeviation", `Sgw, ${pan}`, figures.S_gw],
      ["geometricStandardDeviationUm", `Sgw in um, ${pan}`, figures.S_gw_um],
      ["surfaceAreaCm2PerG", `surface in cm2/g, ${pan}`, figures.surface_cm2_per_g],
      ["particlesPerG", `particles per g, ${pan}`, figures.particles_per_g],
    ],
    { ...panChoice, topUm: inputs.top_bound_um, material },
  );
}

function areaChecks(): PublishedCheck[] {
  const { d_gw_um: mean, S_gw: ratio, density_g_per_cm3, beta_s, beta_v } = area.inputs;
  const grading = classesAt([mean * ratio, mean / ratio], [1, 1], "product");
  return recomputedValues(
    { source: area.source, status: "generated" },
    grading,
    [
      ["surfaceAreaCm2PerG", "surface in cm2/g from dgw and Sgw", area.recomputed.surface_cm2_per_g],
      ["particlesPerG", "particles per g from dgw and Sgw", area.recomputed.particles_per_g],
      ["geometricStandardDeviationUm", "Sgw in um from dgw and Sgw", area.recomputed.S_gw_um],
    ],
    { material: grain(density_g_per_cm3, beta_s, beta_v) },
  );
}

export const checks = [
  ...grindChecks("pan left out", recomputed.convention_drop_pan, { pan: "dropped" }),
  ...grindChecks("pan as 44 um", recomputed.convention_pan_at_44um, { pan: { sizeUm: 44 } }),
  ...grindChecks("pan down to half the finest aperture", recomputed.convention_pan_sqrt_half_aperture, {}),
  ...areaChecks(),
];
