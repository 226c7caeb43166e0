import type { Contribution, Sureness } from "../budget.ts";
import type { ComponentId, SamplingConditions } from "../conditions.ts";

/** What a larger charge does to the variance of a component: nothing, divides by it, or by its square. */
const SHRINKS: Readonly<Record<ComponentId, "not" | "by the mass" | "by its square">> = {
  readability: "by its square",
  repeatability: "by its square",
  linearity: "by its square",
  drift: "by its square",
  loss: "not",
  apertures: "not",
  grains: "by the mass",
  sampling: "not",
  endPoint: "not",
};

/** Whether a component stays as it is, however large the charge. */
export const isFixed = (id: ComponentId): boolean => SHRINKS[id] === "not";

/** Variance of a result as a function of the charge, f times the present one: `fixed + byMass / f + bySquare / f^2`. */
export interface Variance {
  readonly fixed: number;
  readonly byMass: number;
  readonly bySquare: number;
}

type Sure = Sureness & { readonly determinable: true };

const squareOf = (part: Contribution): number => (part.included ? part.u ** 2 : 0);

/**
 * How the variance of one result depends on the charge. The loss counts as the same percentage of any charge, a
 * certificate as the same um. What a charge split from a finite sample gains, the stages before it lose, so the grains'
 * variance is taken back to that of an endless sample and the difference is fixed.
 *
 * @param chargeG the present charge
 */
export function varianceByCharge(sure: Sure, chargeG: number, sampling?: SamplingConditions): Variance {
  const sum = (how: (typeof SHRINKS)[ComponentId]) =>
    sure.components.filter((part) => SHRINKS[part.id] === how).reduce((so, part) => so + squareOf(part), 0);
  const share = sampling?.kind === "fundamental" ? Math.min(0.999, chargeG / sampling.sampleG) : 0;
  const byMass = sum("by the mass") / (1 - share);
  return { fixed: sum("not") - byMass * share, byMass, bySquare: sum("by its square") };
}

export const uAt = ({ fixed, byMass, bySquare }: Variance, times: number): number =>
  Math.sqrt(Math.max(0, fixed + byMass / times + bySquare / times ** 2));

/**
 * By how many times the charge must be taken so that the standard uncertainty comes down to `wantedU`: the root of
 * `bySquare t^2 + byMass t + fixed = wantedU^2`, t one over the wanted number.
 *
 * @returns null if no charge is large enough, since what does not depend on the charge is already more
 */
export function timesFor(variance: Variance, wantedU: number): number | null {
  const { fixed, byMass, bySquare } = variance;
  const left = wantedU ** 2 - fixed;
  if (!(left > 0)) return null;
  if (byMass === 0 && bySquare === 0) return 0;
  return (byMass + Math.sqrt(byMass ** 2 + 4 * bySquare * left)) / (2 * left);
}
