import { number } from "../../grading/values/valuesOf.ts";
import linear from "../examples/j-coulson-1-1.json" with { type: "json" };
import quartz from "../examples/j-crushed-quartz.json" with { type: "json" };
import clay from "../examples/j-open-pan-class.json" with { type: "json" };
import { classesAt, mmToUm, recomputedValues, stackOf } from "../fromExample.ts";
import { halfDigit, type PublishedCheck } from "../record.ts";

function quartzChecks(): PublishedCheck[] {
  const { inputs, expected, recomputed, source } = quartz;
  const grading = classesAt(mmToUm(inputs.class_mean_mm), inputs.mass_fraction, "sum");
  const material = { particleDensityKgM3: inputs.density_g_per_mm3 * 1e6, sphericity: inputs.sphericity };
  const told = { source, status: "memory" } as const;
  const differs = (figure: number, why: string) => ({ recomputed: figure, tolerance: halfDigit(figure), why });
  const bases =
    "The book divides the sums of the diameters by the whole sample though the pan is left out of them (on that basis " +
    "its classes give 1.208 and 1.677 mm); ours are on the retained mass alone.";
  const rounded =
    "Recalled, and 0.06 % above the 3307.2 mm2/g that the book's printed classes give; rounded terms in its sum are " +
    "the likely cause.";
  return [
    {
      ...told,
      value: "specific surface in mm2/g",
      published: expected.A_w_mm2_per_g,
      ours: 1000 * number("specificSurfaceM2PerKg", grading, { material }),
      tolerance: 0.5,
      disagreement: differs(recomputed.A_w_mm2_per_g, rounded),
    },
    {
      ...told,
      value: "Sauter mean in mm",
      published: expected.D_s_mm,
      ours: number("sauterMeanDiameterUm", grading) / 1000,
      tolerance: 0.0005,
      disagreement: differs(recomputed.D_s_mm_renorm, bases),
    },
    {
      ...told,
      value: "mass mean in mm",
      published: expected.D_w_mm,
      ours: number("massMeanDiameterUm", grading) / 1000,
      tolerance: 0.0005,
      disagreement: differs(recomputed.D_w_mm_renorm, bases),
    },
  ];
}

function linearChecks(): PublishedCheck[] {
  const { expected, recomputed, source } = linear;
  const slices = 1000;
  const edges = Array.from({ length: slices + 1 }, (_, i) => 101 - (100 * i) / slices);
  const grading = stackOf(
    edges,
    edges.map((_, i) => (i === 0 ? 0 : 1)),
  );
  const made = { source, status: "generated" } as const;
  return [
    {
      source,
      status: "seen",
      value: "surface mean of d = 100 x + 1 in um",
      published: expected.surface_mean_um,
      ours: number("sauterMeanDiameterUm", grading),
      tolerance: 0.05,
    },
    ...recomputedValues(
      made,
      grading,
      [["sauterMeanDiameterUm", "the same by logarithmic classes", recomputed.surface_mean_um]],
      {
        classMean: "logarithmic",
      },
    ),
    ...recomputedValues(made, grading, [["massMeanDiameterUm", "its mass mean in um", recomputed.mass_mean_um]]),
  ];
}

function clayChecks(): PublishedCheck[] {
  const { inputs, recomputed, source } = clay;
  const [topUm = 0] = inputs.class_upper_um;
  const sieves = inputs.class_lower_um.slice(0, -1);
  const grading = stackOf([topUm, ...sieves], [0, ...inputs.net_g.slice(0, -1)], inputs.net_g.at(-1) ?? 0);
  const told = { source, status: "generated" } as const;
  return [
    ...recomputedValues(
      told,
      grading,
      [["sauterMeanDiameterUm", "Sauter mean in um, pan as 15 um", recomputed.sauter_um_pan_mid_15]],
      {
        pan: { sizeUm: 15 },
      },
    ),
    ...recomputedValues(
      told,
      grading,
      [["sauterMeanDiameterUm", "the same, pan left out", recomputed.sauter_um_without_pan]],
      {
        pan: "dropped",
      },
    ),
    ...recomputedValues(
      told,
      grading,
      [
        [
          "sauterMeanDiameterUm",
          "the same by geometric classes, pan from 1 um",
          recomputed.sauter_um_pan_geometric_floor_1um,
        ],
      ],
      { pan: { sizeUm: Math.sqrt(30) }, classMean: "geometric" },
    ),
  ];
}

export const checks = [...quartzChecks(), ...linearChecks(), ...clayChecks()];
