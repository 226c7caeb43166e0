import { number } from "../../grading/values/valuesOf.ts";
import silica from "../examples/g-silica-sand-47.json" with { type: "json" };
import single from "../examples/g-single-sieve.json" with { type: "json" };
import { stackOf } from "../fromExample.ts";
import { halfDigit, type PublishedCheck } from "../record.ts";

const AFS_UM: Readonly<Record<string, number>> = {
  6: 3350,
  12: 1700,
  20: 850,
  30: 600,
  40: 425,
  50: 300,
  70: 212,
  100: 150,
  140: 106,
  200: 75,
  270: 53,
};

/** The whole set; sieves that the example does not name hold nothing. */
function fineness(mesh: readonly string[], pct: readonly number[]): number {
  const held = Object.keys(AFS_UM).map((number) => pct[mesh.indexOf(number)] ?? 0);
  return number("grainFinenessNumber", stackOf(Object.values(AFS_UM), held));
}

const made = silica.recomputed.gfn;

export const checks: PublishedCheck[] = [
  {
    value: "grain fineness number",
    source: silica.source,
    status: "seen",
    published: silica.expected.gfn_printed,
    ours: fineness(silica.inputs.us_sieve, silica.inputs.retained_pct),
    tolerance: 0.05,
    disagreement: {
      recomputed: made,
      tolerance: halfDigit(made),
      why: "The printed products add to 5065.0, not to the printed total 4663.4, so the table's own number is 51.2.",
    },
  },
  {
    value: "grain fineness number, all on 70 mesh",
    source: `${single.title} (${single.source})`,
    status: "generated",
    published: single.recomputed.gfn,
    ours: fineness(single.inputs.us_sieve, single.inputs.retained_pct),
    tolerance: 0,
  },
];
