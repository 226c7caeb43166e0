import { netMassG } from "../../../src/grading/netMass.ts";
import { passingAt } from "../../../src/grading/passingAt.ts";
import { fraction, gradedOf, numberOf } from "../../grading/stack.ts";
import { number } from "../../grading/values/valuesOf.ts";
import twenty from "../examples/a-20-gram-teaching.json" with { type: "json" };
import coarse from "../examples/a-coarse-cumulative.json" with { type: "json" };
import illinois from "../examples/a-illinois-hw25.json" with { type: "json" };
import beakers from "../examples/a-tared-beakers-phi.json" with { type: "json" };
import { dUm, mmToUm, stackOf } from "../fromExample.ts";
import { furthestOff, halfDigit, type PublishedCheck } from "../record.ts";

const seen = (source: string) => ({ source, status: "seen" }) as const;

function beakerChecks(): PublishedCheck[] {
  const { inputs, expected, source } = beakers;
  const nets = inputs.full_g.map((fullG, i) => netMassG(fullG, inputs.empty_g[i] ?? 0));
  const panG = netMassG(inputs.pan_full_g, inputs.pan_empty_g);
  const grading = stackOf(inputs.aperture_um, nets, panG, { chargeG: inputs.initial_g });
  const column = { ...seen(source), tolerance: 0.005 };
  return [
    furthestOff({ ...column, value: "net mass in g", published: expected.net_g, ours: nets, tolerance: 0 }),
    {
      ...seen(source),
      value: "recovered in g",
      published: expected.recovered_g,
      ours: grading.recoveredG,
      tolerance: 0,
    },
    furthestOff({
      ...column,
      value: "retained %",
      published: expected.retained_pct,
      ours: grading.rows.map((row) => row.retainedPct),
    }),
    furthestOff({
      ...column,
      value: "coarser %",
      published: expected.cumulative_retained_pct,
      ours: grading.rows.map((row) => row.coarserPct),
    }),
    {
      ...seen(source),
      value: "recovered % of the charge",
      published: expected.recovered_of_initial_pct,
      ours: 100 - (grading.lossPct ?? Number.NaN),
      tolerance: 0.05,
    },
  ];
}

function illinoisChecks(): PublishedCheck[] {
  const { inputs, expected, recomputed, source } = illinois;
  const grading = stackOf(inputs.aperture_um, inputs.net_g, inputs.pan_g);
  const made = { source, status: "generated" } as const;
  const sizes = [10, 30, 50, 60, 90] as const;
  return [
    { ...seen(source), value: "recovered in g", published: expected.total_g, ours: grading.recoveredG, tolerance: 0 },
    furthestOff({
      ...made,
      value: "passing %",
      published: recomputed.passing_pct,
      ours: grading.rows.slice(0, -1).map((row) => row.passingPct),
      tolerance: halfDigit(99),
    }),
    {
      ...made,
      value: "fineness modulus",
      published: recomputed.fineness_modulus_standard_series,
      ours: number("finenessModulus", grading),
      tolerance: halfDigit(recomputed.fineness_modulus_standard_series),
    },
    ...sizes.map((pct) => {
      const figure = recomputed[`d${pct}_um`];
      return {
        ...made,
        value: `d${pct} in um`,
        published: figure,
        ours: dUm(grading, pct),
        tolerance: halfDigit(figure),
      };
    }),
  ];
}

function coarseChecks(): PublishedCheck[] {
  const { inputs, expected, source } = coarse;
  const um = inputs.aperture_mm * 1000;
  const restG = netMassG(inputs.initial_g, inputs.cumulative_retained_g);
  const grading = gradedOf([fraction(um, inputs.cumulative_retained_g), fraction(0, restG)]);
  return [
    {
      ...seen(source),
      value: "coarser %",
      published: expected.cumulative_retained_pct,
      ours: grading.rows[0]?.coarserPct ?? Number.NaN,
      tolerance: 0.05,
    },
    {
      ...seen(source),
      value: "passing %",
      published: expected.passing_pct,
      ours: numberOf(passingAt(grading, um, "log-linear")),
      tolerance: 0.05,
    },
  ];
}

function twentyChecks(): PublishedCheck[] {
  const { inputs, expected, source } = twenty;
  const rows = stackOf(mmToUm(inputs.aperture_mm), inputs.net_g, inputs.pan_g).rows.slice(0, -1);
  const exact = { ...seen(source), tolerance: 0 };
  return [
    furthestOff({
      ...exact,
      value: "retained %",
      published: expected.retained_pct,
      ours: rows.map((r) => r.retainedPct),
    }),
    furthestOff({
      ...exact,
      value: "coarser %",
      published: expected.cumulative_retained_pct,
      ours: rows.map((r) => r.coarserPct),
    }),
  ];
}

export const checks = [...beakerChecks(), ...illinoisChecks(), ...coarseChecks(), ...twentyChecks()];
