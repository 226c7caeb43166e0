import { deckPerformance } from "../../../src/grading/deck/deckPerformance.ts";
import { recoveries } from "../../../src/grading/deck/recoveries.ts";
import { totalEfficiencyPct } from "../../../src/grading/deck/totalEfficiency.ts";
import { numberOf } from "../../grading/stack.ts";
import efficiency from "../examples/k-grade-efficiency-1-5.json" with { type: "json" };
import mccabe from "../examples/k-mccabe-30-1.json" with { type: "json" };
import bank from "../examples/k-question-bank-801.json" with { type: "json" };
import { mmToUm, stackOf } from "../fromExample.ts";
import { halfDigit, type PublishedCheck } from "../record.ts";

/** A grading from the cumulative retained fractions of a table; beyond its last figure all is retained. */
function fromCumulative(aperturesMm: readonly number[], retained: readonly (number | null)[]) {
  const cumulative = retained.map((share) => 100 * (share ?? 1));
  const nets = cumulative.map((pct, i) => Math.max(0, pct - (cumulative[i - 1] ?? 0)));
  return stackOf(mmToUm(aperturesMm), nets, 100 - (cumulative.at(-1) ?? 0));
}

function mccabeChecks(): PublishedCheck[] {
  const { inputs, expected, recomputed, source } = mccabe;
  const stream = (retained: readonly (number | null)[]) => fromCumulative(inputs.aperture_mm, retained);
  const [feed, over, under] = [
    stream(inputs.feed_cumulative_retained),
    stream(inputs.overflow_cumulative_retained),
    stream(inputs.underflow_cumulative_retained),
  ];
  const [cutUm = 0] = mmToUm([inputs.cut_mm]);
  const found = deckPerformance(feed, over, under, { interpolation: "log-linear", split: "cut", cutUm });
  const share = numberOf(found.oversizeShare);
  const printed = { source, status: "memory" } as const;
  const made = { source, status: "generated" } as const;
  const again = (value: string, published: number, ours: number): PublishedCheck => ({
    ...made,
    value,
    published,
    ours,
    tolerance: halfDigit(published),
  });
  return [
    { ...printed, value: "D/F, split at the cut", published: expected.D_over_F, ours: share, tolerance: 0.005 },
    { ...printed, value: "B/F", published: expected.B_over_F, ours: 1 - share, tolerance: 0.005 },
    {
      ...printed,
      value: "overall effectiveness",
      published: expected.effectiveness,
      ours: numberOf(found.overallEffectiveness),
      tolerance: 0.0005,
    },
    again("D/F in full", recomputed.D_over_F, share),
    again("oversize recovery in full", recomputed.recovery_oversize, numberOf(found.oversizeRecovery)),
    again("undersize recovery in full", recomputed.rejection_undersize, numberOf(found.undersizeRecovery)),
    again("overall effectiveness in full", recomputed.effectiveness, numberOf(found.overallEffectiveness)),
  ];
}

function bankChecks(): PublishedCheck[] {
  const { inputs, expected, source } = bank;
  const found = recoveries(inputs.overflow_over_feed, {
    feed: 100 * inputs.feed_oversize_fraction,
    oversize: 100 * inputs.overflow_oversize_fraction,
    undersize: 100 * inputs.underflow_oversize_fraction,
  });
  const seen = { source, status: "seen" } as const;
  return [
    {
      ...seen,
      value: "oversize recovery",
      published: expected.recovery_oversize,
      ours: numberOf(found.oversizeRecovery),
      tolerance: 0.0005,
    },
    {
      ...seen,
      value: "undersize recovery",
      published: expected.recovery_undersize,
      ours: numberOf(found.undersizeRecovery),
      tolerance: 0.00005,
    },
    {
      ...seen,
      value: "overall effectiveness in %",
      published: expected.effectiveness_pct,
      ours: 100 * numberOf(found.overallEffectiveness),
      tolerance: 0.05,
    },
  ];
}

function efficiencyChecks(): PublishedCheck[] {
  const { inputs, expected, source } = efficiency;
  const classes = inputs.mass_pct.map((mass, i) => ({ mass, caughtPct: inputs.class_efficiency_pct[i] ?? 0 }));
  return [
    {
      source,
      status: "seen",
      value: "total efficiency from grade efficiencies in %",
      published: expected.overall_pct,
      ours: totalEfficiencyPct(classes) ?? Number.NaN,
      tolerance: 0.05,
    },
  ];
}

export const checks = [...mccabeChecks(), ...bankChecks(), ...efficiencyChecks()];
