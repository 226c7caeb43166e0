import { compareStacks } from "../../../src/care/comparison/compareStacks.ts";
import { pairsToSee } from "../../../src/care/comparison/smallestSeen.ts";
import { studentQuantile } from "../../../src/care/studentT.ts";
import { numberOf } from "../../grading/stack.ts";
import sleep from "../examples/q-paired-sleep.json" with { type: "json" };
import needed from "../examples/q-pairs-needed.json" with { type: "json" };
import quantiles from "../examples/q-student-quantiles.json" with { type: "json" };
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

export const checks: PublishedCheck[] = [
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
