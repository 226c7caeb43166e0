import { passingAt } from "../../../src/grading/passingAt.ts";
import { numberOf, passing } from "../../grading/stack.ts";
import { number } from "../../grading/values/valuesOf.ts";
import activity from "../examples/c-activity-situation-1.json" with { type: "json" };
import ratios from "../examples/c-cu-cc-only.json" with { type: "json" };
import das from "../examples/c-das-2-2.json" with { type: "json" };
import stock from "../examples/d-usable-portion.json" with { type: "json" };
import { dUm, mmToUm, recomputedValues, stackOf } from "../fromExample.ts";
import { furthestOff, halfDigit, type PublishedCheck } from "../record.ts";

const dasSoil = stackOf(mmToUm(das.inputs.aperture_mm), das.inputs.net_g, das.inputs.pan_g);

function dasPublished(): PublishedCheck[] {
  const told = { source: das.source, status: "seen" } as const;
  const { expected, recomputed } = das;
  const why = "The book reads D60 off a drawn curve, 0.018 mm from the interpolated one; Cu and Cc follow from it.";
  const differs = (figure: number, scale = 1) => ({ recomputed: figure, tolerance: halfDigit(figure) * scale, why });
  return [
    { ...told, value: "D10 in mm", published: expected.D10_mm, ours: dUm(dasSoil, 10) / 1000, tolerance: 0.005 },
    { ...told, value: "D30 in mm", published: expected.D30_mm, ours: dUm(dasSoil, 30) / 1000, tolerance: 0.005 },
    {
      ...told,
      value: "D60 in mm",
      published: expected.D60_mm,
      ours: dUm(dasSoil, 60) / 1000,
      tolerance: 0.005,
      disagreement: differs(recomputed.D60_mm),
    },
    {
      ...told,
      value: "Cu",
      published: expected.Cu,
      ours: number("uniformityCoefficient", dasSoil),
      tolerance: 0.05,
      disagreement: differs(recomputed.Cu),
    },
    {
      ...told,
      value: "Cc",
      published: expected.Cc,
      ours: number("curvatureCoefficient", dasSoil),
      tolerance: 0.005,
      disagreement: differs(recomputed.Cc),
    },
  ];
}

function dasRecomputed(): PublishedCheck[] {
  const told = { source: das.source, status: "generated" } as const;
  const { recomputed } = das;
  const log = [recomputed.D10_mm, recomputed.D30_mm, recomputed.D50_mm, recomputed.D60_mm, recomputed.D90_mm];
  const linear = recomputed.linear_aperture;
  return [
    furthestOff({
      ...told,
      value: "D10 to D90 in mm, log-linear",
      published: log,
      ours: [10, 30, 50, 60, 90].map((pct) => dUm(dasSoil, pct) / 1000),
      tolerance: halfDigit(1.25),
    }),
    furthestOff({
      ...told,
      value: "D10, D30, D60 in mm, linear",
      published: [linear.D10_mm, linear.D30_mm, linear.D60_mm],
      ours: [10, 30, 60].map((pct) => dUm(dasSoil, pct, "linear") / 1000),
      tolerance: halfDigit(0.17),
    }),
  ];
}

function activityChecks(): PublishedCheck[] {
  const { inputs, recomputed, source } = activity;
  const grading = stackOf(mmToUm(inputs.aperture_mm), inputs.net_g, inputs.pan_g);
  const told = { source, status: "generated" } as const;
  return [
    furthestOff({
      ...told,
      value: "passing %",
      published: recomputed.passing_pct,
      ours: grading.rows.slice(0, -1).map((row) => row.passingPct),
      tolerance: halfDigit(99),
    }),
    furthestOff({
      ...told,
      value: "D10 to D90 in mm, log-linear",
      published: [recomputed.D10_mm, recomputed.D30_mm, recomputed.D50_mm, recomputed.D60_mm, recomputed.D90_mm],
      ours: [10, 30, 50, 60, 90].map((pct) => dUm(grading, pct) / 1000),
      tolerance: halfDigit(1.37),
    }),
    ...recomputedValues(told, grading, [
      ["uniformityCoefficient", "Cu", recomputed.Cu],
      ["curvatureCoefficient", "Cc", recomputed.Cc],
    ]),
  ];
}

function ratioChecks(): PublishedCheck[] {
  const { inputs, recomputed, source } = ratios;
  const [d10, d30, d60] = mmToUm([inputs.D10_mm, inputs.D30_mm, inputs.D60_mm]);
  return recomputedValues({ source, status: "generated" }, passing(`1000:100 ${d60}:60 ${d30}:30 ${d10}:10`), [
    ["uniformityCoefficient", "Cu", recomputed.Cu],
    ["curvatureCoefficient", "Cc", recomputed.Cc],
  ]);
}

function stockChecks(): PublishedCheck[] {
  const { inputs, recomputed, source } = stock;
  const points = mmToUm(inputs.aperture_mm).map((um, i) => `${um}:${inputs.passing_pct[i]}`);
  const grading = passing(points.toReversed().join(" "));
  const d10 = inputs.wanted_effective_size_mm * 1000;
  const at = (um: number) => numberOf(passingAt(grading, um, "log-linear"));
  const [p10, p60] = [recomputed.P10_pct, recomputed.P60_pct];
  const told = { source, status: "generated" } as const;
  return [
    { ...told, value: "passing % at 0.5 mm", published: p10, ours: at(d10), tolerance: halfDigit(p10) },
    {
      ...told,
      value: "passing % at 0.75 mm",
      published: p60,
      ours: at(d10 * inputs.wanted_uniformity),
      tolerance: halfDigit(p60),
    },
  ];
}

export const checks = [...dasPublished(), ...dasRecomputed(), ...activityChecks(), ...ratioChecks(), ...stockChecks()];
