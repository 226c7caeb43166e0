import { curveOf } from "../../../src/grading/curve.ts";
import { pchipSlopes } from "../../../src/grading/interpolation/pchip.ts";
import { normalQuantile } from "../../../src/grading/normal.ts";
import { passingAt } from "../../../src/grading/passingAt.ts";
import { numberOf } from "../../grading/stack.ts";
import das from "../examples/c-das-2-2.json" with { type: "json" };
import quantiles from "../examples/p-normal-quantiles.json" with { type: "json" };
import pchip from "../examples/p-pchip-passing.json" with { type: "json" };
import { dUm, mmToUm, stackOf } from "../fromExample.ts";
import { furthestOff, halfDigit, type PublishedCheck } from "../record.ts";

const told = { source: `Das's soil, ${pchip.source}`, status: "generated" } as const;
const { recomputed } = pchip;
const soil = stackOf(mmToUm(das.inputs.aperture_mm), das.inputs.net_g, das.inputs.pan_g);
const { lnAperture, passingPct } = curveOf(soil);

/** Figures of this example carry twelve digits. */
const twelve = (figure: number) => halfDigit(figure, 12);

export const checks: PublishedCheck[] = [
  furthestOff({
    ...told,
    value: "monotone: slopes in % per decade",
    published: recomputed.knot_slopes_pct_per_decade,
    ours: pchipSlopes(lnAperture, passingPct).map((perLn) => perLn * Math.LN10),
    tolerance: twelve(186),
  }),
  furthestOff({
    ...told,
    value: "monotone: passing %",
    published: recomputed.passing_pct,
    ours: recomputed.query_aperture_um.map((um) => numberOf(passingAt(soil, um, "monotone"))),
    tolerance: twelve(97),
  }),
  ...([10, 50, 60, 90] as const).map((pct) => {
    const figure = recomputed[`d${pct}_um`];
    return {
      ...told,
      value: `monotone: d${pct} in um`,
      published: figure,
      ours: dUm(soil, pct, "monotone"),
      tolerance: twelve(figure),
    };
  }),
  furthestOff({
    source: quantiles.source,
    status: "generated",
    value: "normal quantiles",
    published: quantiles.recomputed.z,
    ours: quantiles.inputs.p.map(normalQuantile),
    tolerance: 1e-12,
  }),
];
