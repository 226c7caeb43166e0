import { compareStacks } from "../../../src/care/comparison/compareStacks.ts";
import { pairsToSee } from "../../../src/care/comparison/smallestSeen.ts";
import { apertureLimits } from "../../../src/care/inspection/limits.ts";
import { crossTestSpreadPct } from "../../../src/care/reference/referenceCheck.ts";
import { studentQuantile } from "../../../src/care/studentT.ts";
import { numberOf } from "../../grading/stack.ts";
import inspection from "../examples/q-inspection.json" with { type: "json" };
import sleep from "../examples/q-paired-sleep.json" with { type: "json" };
import needed from "../examples/q-pairs-needed.json" with { type: "json" };
import quantiles from "../examples/q-student-quantiles.json" with { type: "json" };
import printed from "../examples/sieve-limits.json" with { type: "json" };
import { furthestOff, halfDigit, type PublishedCheck } from "../record.ts";

const run = (passingPct: number) => [{ apertureUm: 500, passingPct }];
const [slept] = compareStacks(
  sleep.inputs.second_h.map((second, i) => ({
    working: run(second),
    master: run(sleep.inputs.first_h[i] ?? Number.NaN),
  })),
).apertures;

const paired = (
  value: string,
  published: number,
  ours: number | null | undefined,
  tolerance: number,
): PublishedCheck => ({
  source: sleep.source,
  status: "memory",
  value,
  published,
  ours: ours ?? Number.NaN,
  tolerance,
});

const student = (share: string, published: readonly number[], p: number): PublishedCheck =>
  furthestOff({
    source: quantiles.source,
    status: "generated",
    value: `Student's t at ${share}`,
    published,
    ours: quantiles.degrees.map((degrees) => studentQuantile(p, degrees)),
    tolerance: 1e-10,
  });

const LIMITS = { Y: "meanUm", X: "maxUm", Z: "intermediateUm" } as const;

/** The limits of a sieve's apertures as an inspection judges by them, where a table was read. */
function inspected(limit: keyof typeof LIMITS): PublishedCheck {
  const rows = printed.rows.filter((row) => row.limit === limit);
  const used = rows.map(({ apertureUm }) => apertureLimits(apertureUm, "woven wire"));
  return furthestOff({
    source: printed.source,
    status: "seen",
    value: `limit ${limit} in um that an inspection judges by`,
    published: rows.map(({ printedUm }) => printedUm),
    ours: used.map((limits) => ("reason" in limits ? Number.NaN : limits[LIMITS[limit]])),
    tolerance: 0,
  });
}

export const checks: PublishedCheck[] = [
  inspected("Y"),
  inspected("X"),
  inspected("Z"),
  furthestOff({
    source: inspection.crossTest.source,
    status: "seen",
    value: "spread for the z score of a reference material, in % passing",
    published: inspection.crossTest.spreadPct,
    ours: inspection.crossTest.passingPct.map(crossTestSpreadPct),
    tolerance: 0.005,
  }),
  paired("paired runs: mean difference", sleep.expected.mean, slept?.meanPct, halfDigit(sleep.expected.mean, 3)),
  paired("paired runs: 95 % range, lower end", sleep.expected.from, slept?.fromPct, halfDigit(sleep.expected.from, 7)),
  paired("paired runs: 95 % range, upper end", sleep.expected.to, slept?.toPct, halfDigit(sleep.expected.to, 8)),
  paired("paired runs: p", sleep.expected.p, slept?.p, halfDigit(sleep.expected.p, 4)),
  student("97.5 %", quantiles.t_975, 0.975),
  student("95 %", quantiles.t_95, 0.95),
  ...needed.rows.map(
    ({ difference, alpha, pairs }): PublishedCheck => ({
      source: needed.source,
      status: "generated",
      value: `pairs that show a difference of ${difference} s nine times in ten, alpha ${alpha}`,
      published: pairs,
      ours: numberOf(pairsToSee(difference, 1, { alpha })),
      tolerance: 0,
    }),
  ),
];
