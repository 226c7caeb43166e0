import type { GridCurve, GridLine } from "./model.ts";
import type { FitPoint } from "./points.ts";

/**
 * Misfit of a line and how it changes with the line's two parameters, taken as logarithms (ln size, ln slope), so that
 * neither can turn negative: `sum` of squared residuals in % points, and of the Jacobian J the products
 * `JtJ = [[aa, ab], [ab, bb]]` and `Jtr = [ar, br]` with the residuals r = observed - predicted.
 */
export interface NormalEquations {
  readonly sum: number;
  readonly aa: number;
  readonly ab: number;
  readonly bb: number;
  readonly ar: number;
  readonly br: number;
}

/** With v = slope (ln x - lnSize): dv/d lnSize = -slope and dv/d ln slope = v; dP = (dP/dv) dv. */
export function normalEquations(points: readonly FitPoint[], curve: GridCurve, line: GridLine): NormalEquations {
  const total = { sum: 0, aa: 0, ab: 0, bb: 0, ar: 0, br: 0 };
  for (const { lnSizeUm, passingPct } of points) {
    const v = line.slope * (lnSizeUm - line.lnSizeUm);
    const residual = passingPct - curve.passingPctAt(v);
    const rise = curve.risePctAt(v);
    const a = -line.slope * rise;
    const b = v * rise;
    total.sum += residual * residual;
    total.aa += a * a;
    total.ab += a * b;
    total.bb += b * b;
    total.ar += a * residual;
    total.br += b * residual;
  }
  return total;
}

export interface Step {
  readonly lnSize: number;
  readonly lnSlope: number;
}

/** Below this the two columns of J are parallel but for rounding: the points do not tell the parameters apart. */
const SINGULAR = 1e-13;

/** (JtJ + damping diag JtJ)^-1 as [aa, ab, bb]; null if it cannot be told from singular. */
export function inverse(m: NormalEquations, damping: number): readonly [number, number, number] | null {
  const aa = m.aa * (1 + damping);
  const bb = m.bb * (1 + damping);
  const determinant = aa * bb - m.ab * m.ab;
  return determinant > SINGULAR * aa * bb ? [bb / determinant, -m.ab / determinant, aa / determinant] : null;
}

/** The step (JtJ + damping diag JtJ)^-1 Jtr; damping 0 is the Gauss-Newton step. Null if singular. */
export function step(m: NormalEquations, damping: number): Step | null {
  const inv = inverse(m, damping);
  return inv && { lnSize: inv[0] * m.ar + inv[1] * m.br, lnSlope: inv[1] * m.ar + inv[2] * m.br };
}
