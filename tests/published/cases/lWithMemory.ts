import { cusumOf } from "../../../src/control/memory/cusum.ts";
import { ewmaOf } from "../../../src/control/memory/ewma.ts";
import montgomery from "../examples/l-montgomery-ewma-cusum.json" with { type: "json" };
import cusum from "../examples/l-nist-cusum.json" with { type: "json" };
import cusumTable from "../examples/l-nist-cusum-table.json" with { type: "json" };
import ewma from "../examples/l-nist-ewma.json" with { type: "json" };
import shifted from "../examples/l-run-rules-montgomery.json" with { type: "json" };
import { furthestOff, type PublishedCheck } from "../record.ts";

const memory = (source: string) => ({ source, status: "memory" }) as const;
const made = (source: string) => ({ source, status: "generated" }) as const;

const firstPlace = (points: readonly { readonly side: unknown }[]) => 1 + points.findIndex(({ side }) => side !== null);

function ewmaChecks(): PublishedCheck[] {
  const { inputs, expected, recomputed, source } = ewma;
  const points = ewmaOf(
    inputs.values,
    { centre: inputs.target, sigma: inputs.sigma },
    { lambda: inputs.lambda, widthSigmas: inputs.width_sigmas, limits: "steady" },
  );
  const last = points.at(-1);
  const told = memory(source);
  return [
    furthestOff({
      ...told,
      value: "EWMA",
      published: expected.ewma,
      ours: points.map((point) => point.ewma),
      tolerance: 0.005,
    }),
    {
      ...told,
      value: "EWMA, upper limit",
      published: expected.UCL,
      ours: last?.upper ?? Number.NaN,
      tolerance: 0.5e-4,
    },
    {
      ...told,
      value: "EWMA, lower limit",
      published: expected.LCL,
      ours: last?.lower ?? Number.NaN,
      tolerance: 0.5e-4,
      disagreement: {
        recomputed: recomputed.LCL,
        tolerance: 1e-6,
        why: "The handbook rounds the square root of lambda/(2 - lambda) to 0.4201; the limit is 47.41157.",
      },
    },
  ];
}

function cusumChecks(): PublishedCheck[] {
  const { inputs, recomputed, source } = cusum;
  const points = cusumOf(
    inputs.values,
    { centre: inputs.target, sigma: 1 },
    { slackSigmas: inputs.k, limitSigmas: inputs.h },
  );
  const column = { ...made(`data of ${source}, from memory`), tolerance: 1e-9 };
  return [
    furthestOff({
      ...memory(source),
      value: "cumulative sum above, values 13 to 20",
      published: cusumTable.expected.S_hi,
      ours: points.slice(cusumTable.inputs.first - 1).map(({ above }) => above),
      tolerance: 0.005 + 1e-9,
    }),
    {
      ...memory(source),
      value: "cumulative sum: first signal",
      published: cusumTable.expected.first_signal,
      ours: firstPlace(points),
      tolerance: 0,
    },
    furthestOff({
      ...column,
      value: "cumulative sum above",
      published: recomputed.S_hi,
      ours: points.map(({ above }) => above),
    }),
    furthestOff({
      ...column,
      value: "cumulative sum below",
      published: recomputed.S_lo,
      ours: points.map(({ below }) => below),
    }),
  ];
}

const NOT_28 =
  "Recalled as 28; by the book's own observations the 28th average is 10.573, inside its limit of 10.619, the 29th outside.";

function montgomeryChecks(): PublishedCheck[] {
  const { inputs, expected, recomputed, source } = montgomery;
  const { values } = shifted.inputs;
  const process = { centre: inputs.target, sigma: inputs.sigma };
  const averages = (limits: "start-up" | "steady") =>
    ewmaOf(values, process, { lambda: inputs.lambda, widthSigmas: inputs.width_sigmas, limits });
  const sums = cusumOf(values, process, { slackSigmas: inputs.k, limitSigmas: inputs.h });
  const at29 = sums[28] ?? { above: Number.NaN, since: null };
  const [start, steady] = [averages("start-up"), averages("steady").at(-1)];
  const told = memory(source);
  const column = (value: string, published: number[], ours: readonly number[], tolerance: number) =>
    furthestOff({ ...told, value, published, ours, tolerance });
  return [
    column(
      "EWMA, first two",
      expected.ewma,
      start.slice(0, 2).map((point) => point.ewma),
      1e-9,
    ),
    column(
      "EWMA, start-up limits above",
      expected.ewma_upper,
      start.slice(0, 2).map(({ upper }) => upper),
      0.005,
    ),
    column(
      "EWMA, start-up limits below",
      expected.ewma_lower,
      start.slice(0, 2).map(({ lower }) => lower),
      0.005,
    ),
    column("EWMA, steady limits", expected.steady, [steady?.lower ?? Number.NaN, steady?.upper ?? Number.NaN], 0.005),
    {
      ...told,
      value: "EWMA: first signal",
      published: expected.ewma_first_signal,
      ours: firstPlace(start),
      tolerance: 0,
      disagreement: { recomputed: recomputed.ewma_first_signal, tolerance: 0, why: NOT_28 },
    },
    {
      ...told,
      value: "cumulative sum above at 29",
      published: expected.cusum_up_at_29,
      ours: at29.above,
      tolerance: 0.005,
    },
    {
      ...told,
      value: "cumulative sum: first signal",
      published: expected.cusum_first_signal,
      ours: firstPlace(sums),
      tolerance: 0,
    },
    {
      ...told,
      value: "cumulative sum: values since it began, at 29",
      published: expected.cusum_counts_at_29,
      ours: 29 - (at29.since ?? Number.NaN),
      tolerance: 0,
    },
  ];
}

export const checks: PublishedCheck[] = [...ewmaChecks(), ...cusumChecks(), ...montgomeryChecks()];
