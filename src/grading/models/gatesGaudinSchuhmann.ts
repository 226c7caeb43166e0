import { alongLogSize, type GridCurve, isInside, type SizeModel } from "./model.ts";

/** The power law without its end: above the top size it runs on past 100 %. Only fits look at it like this. */
export const endlessPowerLaw: GridCurve = {
  passingPctAt: (v) => 100 * Math.exp(v),
  risePctAt: (v) => 100 * Math.exp(v),
};

/**
 * Gates-Gaudin-Schuhmann: `P(x) = 100 (x/k)^m` up to the top size k, 100 above it; sizes in um, P in % passing.
 * k is `sizeUm`, m is `exponent`. Straight on `v = ln(P/100)` over `u = ln x`, with slope m; the line ends at v = 0.
 * 0 % has no place on that grid.
 * @source Gaudin, Principles of Mineral Dressing (1939); Schuhmann, AIME TP 1189 (1940) (both memory)
 * @example
 * gatesGaudinSchuhmann.passingPctAt(Math.log(0.25)) // => 25
 */
export const gatesGaudinSchuhmann: SizeModel = {
  id: "gatesGaudinSchuhmann",
  label: "Gates-Gaudin-Schuhmann",
  parameters: [
    { key: "sizeUm", label: "top size k", unit: "um" },
    { key: "exponent", label: "exponent m", unit: "1" },
  ],
  formula: "passing % = 100 (size / top size) ^ m, and 100 above the top size",
  source: "Gaudin 1939, Schuhmann 1940",
  ...alongLogSize,
  gridY: (passingPct) => (isInside(passingPct) || passingPct === 100 ? Math.log(passingPct / 100) : null),
  passingPctAt: (v) => (v < 0 ? endlessPowerLaw.passingPctAt(v) : 100),
  risePctAt: (v) => (v < 0 ? endlessPowerLaw.risePctAt(v) : 0),
  topV: 0,
  ticksPct: [1, 2, 5, 10, 20, 50, 100],
  named: (found) => ({
    model: "gatesGaudinSchuhmann",
    sizeUm: found.sizeUm,
    exponent: found.slope,
    standardErrors: { sizeUm: found.sizeErrorUm, exponent: found.slopeError },
  }),
};
