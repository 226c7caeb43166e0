import { alongLogSize, isInside, type SizeModel } from "./model.ts";

/**
 * Rosin-Rammler (also with Sperling and Bennett): `P(x) = 100 (1 - exp(-(x/x')^n))`, sizes in um, P in % passing.
 * x' (`sizeUm`) passes 100 (1 - 1/e) = 63.2 %; n (`spread`) is larger for a narrower product. Straight on
 * `v = ln(-ln(1 - P/100))` over `u = ln x`, with slope n. 0 and 100 % have no place on that grid.
 * @source Rosin and Rammler, J. Inst. Fuel 7 (1933) 29; DIN 66145 (both memory)
 * @example
 * rosinRammler.gridY(100 * (1 - Math.exp(-1))) // => 0
 */
export const rosinRammler: SizeModel = {
  id: "rosinRammler",
  label: "Rosin-Rammler",
  parameters: [
    { key: "sizeUm", label: "size at 63.2 % passing", unit: "um" },
    { key: "spread", label: "spread n", unit: "1" },
  ],
  formula: "passing % = 100 (1 - exp(-(size / size at 63.2 %) ^ n))",
  source: "Rosin and Rammler 1933",
  ...alongLogSize,
  gridY: (passingPct) => (isInside(passingPct) ? Math.log(-Math.log1p(-passingPct / 100)) : null),
  passingPctAt: (v) => -100 * Math.expm1(-Math.exp(v)),
  risePctAt: (v) => 100 * Math.exp(v - Math.exp(v)),
  topV: null,
  ticksPct: [1, 5, 10, 20, 50, 63.2, 80, 90, 95, 99],
  named: (found) => ({
    model: "rosinRammler",
    sizeUm: found.sizeUm,
    spread: found.slope,
    standardErrors: { sizeUm: found.sizeErrorUm, spread: found.slopeError },
  }),
};
