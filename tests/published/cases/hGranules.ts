import { passing } from "../../grading/stack.ts";
import { number } from "../../grading/values/valuesOf.ts";
import definition from "../examples/h-definition.json" with { type: "json" };
import table from "../examples/h-on-hw25.json" with { type: "json" };
import { dUm, mmToUm, recomputedValues, stackOf } from "../fromExample.ts";
import { halfDigit, type PublishedCheck } from "../record.ts";

const byDefinition: PublishedCheck[] = definition.inputs.median_mm.map((mm, i) => ({
  value: `size guide number of a median of ${mm} mm`,
  source: definition.source,
  status: "seen",
  published: definition.expected.sgn[i] ?? Number.NaN,
  ours: number("sizeGuideNumber", passing(`10000:100 ${mm * 1000}:50 100:0`)),
  tolerance: 0,
}));

const grading = stackOf(mmToUm(table.inputs.aperture_mm), table.inputs.net_g, table.inputs.pan_g);

const onTable = (interpolation: "log-linear" | "linear"): PublishedCheck[] => {
  const told = { source: table.source, status: "generated" } as const;
  const made = interpolation === "linear" ? table.recomputed.linear_aperture : table.recomputed.log_linear;
  const { d95_retained_mm: d5, d10_retained_mm: d90 } = made;
  const size = (pct: number) => dUm(grading, pct, interpolation) / 1000;
  return [
    {
      ...told,
      value: `size at 95 % retained in mm, ${interpolation}`,
      published: d5,
      ours: size(5),
      tolerance: halfDigit(d5),
    },
    {
      ...told,
      value: `size at 10 % retained in mm, ${interpolation}`,
      published: d90,
      ours: size(90),
      tolerance: halfDigit(d90),
    },
    ...recomputedValues(
      told,
      grading,
      [
        ["sizeGuideNumber", `size guide number, ${interpolation}`, made.sgn],
        ["uniformityIndex", `uniformity index, ${interpolation}`, made.uniformity_index],
      ],
      { interpolation },
    ),
  ];
};

export const checks = [...byDefinition, ...onTable("log-linear"), ...onTable("linear")];
