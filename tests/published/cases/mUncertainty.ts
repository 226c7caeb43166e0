import { decide, guardWidth } from "../../../src/uncertainty/decision/decide.ts";
import { globalRisks } from "../../../src/uncertainty/decision/globalRisks.ts";
import { chanceBetween } from "../../../src/uncertainty/interval.ts";
import { numericalTolerance } from "../../../src/uncertainty/monteCarlo/numericalTolerance.ts";
import { crossTestRule } from "../../../src/uncertainty/planning/crossTest.ts";
import { combined, slopeOf } from "../../../src/uncertainty/propagation.ts";
import { cholesky } from "../../uncertainty/cholesky.ts";
import a1 from "../examples/m-eurachem-a1.json" with { type: "json" };
import band from "../examples/m-guard-band.json" with { type: "json" };
import { furthestOff, halfDigit, type PublishedCheck } from "../record.ts";

type Model = (...inputs: number[]) => number;

/** First-order uncertainty of any model by the program's own law: differences of +-u, correlations as shared causes. */
function uOfModel(model: Model, inputs: readonly number[], u: readonly number[], correlation?: number[][]): number {
  const at = (j: number, off: number) => model(...inputs.map((x, k) => (k === j ? x + off : x)));
  const perInput = Float64Array.from(inputs, (_, j) =>
    slopeOf(at(j, -(u[j] ?? 0)), model(...inputs), at(j, u[j] ?? 0), u[j] ?? 1),
  );
  const identity = inputs.map((_, j) => inputs.map((__, k) => (j === k ? 1 : 0)));
  const causes = cholesky(correlation ?? identity).map((column) => ({
    byMassG: Float64Array.from(column, (share, j) => share * (u[j] ?? 0)),
  }));
  return combined(causes, perInput);
}

const concentration: Model = (massMg = 0, purity = 0, volumeMl = 1) => (1000 * massMg * purity) / volumeMl;
const { inputs: flask, recomputed } = a1;
const flaskInputs = [flask.m_mg, flask.purity, flask.V_ml];
const flaskU = [flask.u_m_mg, flask.u_purity, flask.u_V_ml];

const H2 = { source: "GUM (JCGM 100:2008), example H.2", status: "memory" } as const;
/** Five simultaneous observations of V in volt, I in ampere and phi in radian. */
const h2Seen = [
  [5.007, 4.994, 5.005, 4.99, 4.999],
  [0.019663, 0.019639, 0.01964, 0.019685, 0.019678],
  [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
];
const h2Inputs = h2Seen.map((seen) => seen.reduce((sum, x) => sum + x, 0) / seen.length);
const h2Products = h2Seen.map((a, i) =>
  h2Seen.map((b, k) => a.reduce((sum, x, n) => sum + (x - (h2Inputs[i] ?? 0)) * ((b[n] ?? 0) - (h2Inputs[k] ?? 0)), 0)),
);
const h2U = h2Products.map((row, i) => Math.sqrt((row[i] ?? 0) / (5 * 4)));
const h2Correlation = h2Products.map((row, i) =>
  row.map((product, k) => product / (20 * (h2U[i] ?? 1) * (h2U[k] ?? 1))),
);
const h2 = (model: Model) => uOfModel(model, h2Inputs, h2U, h2Correlation);

const OIL = { source: "JCGM 106:2012, clause 7.4, viscosity of motor oil", status: "memory" } as const;
const ZENER = { source: "JCGM 106:2012, clause 7.3, breakdown voltage of a diode", status: "memory" } as const;
const GUARD = { source: band.source, status: "generated" } as const;
const oil = { value: band.inputs.estimate, u: band.inputs.u };
const oneSided = { min: null, max: band.inputs.TU };

const TOLERANCES = { source: "JCGM 101:2008, clause 7.9.2, examples 1 to 3", status: "memory" } as const;
const RISKS = {
  source: "resistors of JCGM 106 clause 9, integrals by scipy 1.17.1 quad",
  status: "generated",
} as const;
const resistor = { min: -0.2, max: 0.2 };
const risks = globalRisks({ mean: 0, sd: 0.12 }, 0.04, resistor, resistor);

const BRE = {
  source: "BRE, European cross-test of sieve analysis, summary page (the rules; their figures recomputed)",
  status: "seen",
} as const;
const atPct = [1, 5, 10, 20, 30, 50];

export const checks: PublishedCheck[] = [
  {
    source: a1.source,
    status: "seen",
    value: "u of a weighed standard in mg/l",
    published: a1.expected.u_c_mg_per_l,
    ours: uOfModel(concentration, flaskInputs, flaskU),
    tolerance: 0.05,
  },
  {
    source: `${a1.source}, recomputed`,
    status: "generated",
    value: "u of a weighed standard in mg/l",
    published: recomputed.u_c_mg_per_l,
    ours: uOfModel(concentration, flaskInputs, flaskU),
    // The quotient is bent by (u/V)^2 over a step of u: seven digits are what differences of that width can give.
    tolerance: 1e-6,
  },
  {
    source: a1.source,
    status: "seen",
    value: "relative u of a weighed standard",
    published: a1.expected.relative[3] ?? Number.NaN,
    ours: uOfModel(concentration, flaskInputs, flaskU) / concentration(...flaskInputs),
    tolerance: 0.00005,
  },
  {
    ...H2,
    value: "u of resistance R in ohm, three correlated inputs",
    published: 0.071,
    ours: h2((v = 0, i = 1, phi = 0) => (v / i) * Math.cos(phi)),
    tolerance: 0.0005,
  },
  {
    ...H2,
    value: "u of reactance X in ohm",
    published: 0.295,
    ours: h2((v = 0, i = 1, phi = 0) => (v / i) * Math.sin(phi)),
    tolerance: 0.0005,
    disagreement: {
      recomputed: 0.29558168,
      tolerance: 1e-6,
      why:
        "From the recalled observations numpy gives 0.29558 by first order and 0.29549 as the scatter of the five " +
        "reactances themselves; the figure as recalled is the second, rounded.",
    },
  },
  {
    ...H2,
    value: "u of impedance Z in ohm",
    published: 0.236,
    ours: h2((v = 0, i = 1) => v / i),
    tolerance: 0.0005,
  },
  {
    ...OIL,
    value: "probability of conformity, two-sided",
    published: 0.66,
    ours: decide(oil, { min: 12.5, max: 16.3 }, { kind: "simple" }).conformity,
    tolerance: 0.005,
  },
  {
    ...ZENER,
    value: "probability of conformity, one-sided",
    published: 0.92,
    ours: chanceBetween(-5.47, 0.05, null, -5.4),
    tolerance: 0.005,
  },
  {
    ...GUARD,
    value: "guard band w = z u",
    published: band.recomputed.guard_band,
    ours: guardWidth({ z: 1.6448536269514722 }, oil.u),
    tolerance: halfDigit(band.recomputed.guard_band),
  },
  {
    ...GUARD,
    value: "acceptance limit with w = z u",
    published: band.recomputed.acceptance_limit,
    ours: decide(oil, oneSided, { kind: "guarded acceptance", guard: { z: 1.6448536269514722 } }).acceptance.high ?? 0,
    tolerance: halfDigit(band.recomputed.acceptance_limit),
  },
  {
    ...GUARD,
    value: "guard band w = U",
    published: band.recomputed.guard_band_U_k2,
    ours: guardWidth({ r: 1 }, oil.u),
    tolerance: 1e-9,
  },
  {
    ...GUARD,
    value: "accepted with w = z u (1: yes, 0: no)",
    published: band.recomputed.accept ? 1 : 0,
    ours: Number(decide(oil, oneSided, { kind: "guarded acceptance" }).accepted),
    tolerance: 0,
  },
  {
    ...GUARD,
    value: "acceptance limit with w = U",
    published: band.recomputed.acceptance_limit_U_k2,
    ours: decide(oil, oneSided, { kind: "guarded acceptance", guard: { r: 1 } }).acceptance.high ?? 0,
    tolerance: 1e-9,
  },
  furthestOff({
    ...TOLERANCES,
    value: "numerical tolerance for u of 0.00035 (2 digits), 0.00035 (1 digit), 2 (1 digit)",
    published: [0.000005, 0.00005, 0.5],
    ours: [numericalTolerance(0.00035, 2), numericalTolerance(0.00035, 1), numericalTolerance(2, 1)],
    tolerance: 1e-12,
  }),
  {
    ...RISKS,
    value: "global consumer's risk, simple acceptance",
    published: 0.01894220671702913,
    ours: risks.consumer,
    tolerance: 1e-9,
  },
  {
    ...RISKS,
    value: "global producer's risk, simple acceptance",
    published: 0.03720780017805778,
    ours: risks.producer,
    tolerance: 1e-9,
  },
  furthestOff({
    ...BRE,
    value: "cross-test: S_R in % passing at 1 to 50 %",
    published: [0.5, 1.09, 1.5, 2, 2.29, 2.5],
    ours: atPct.map((pct) => crossTestRule(pct).spreadPct),
    tolerance: 0.005,
  }),
  furthestOff({
    ...BRE,
    value: "cross-test: least tolerance in % passing at 1 to 50 %",
    published: [2.98, 6.54, 9, 12, 13.75, 15],
    ours: atPct.map((pct) => crossTestRule(pct).tolerancePct),
    tolerance: 0.0051,
  }),
];
