import fc from "fast-check";
import { grade } from "../../src/grading/grade.ts";
import type { Fraction, Grading, GradingChoices, GradingMasses } from "../../src/grading/grading.ts";
import type { Determination } from "../../src/record/determination.ts";
import { INTERPOLATIONS } from "../../src/record/product.ts";

export const fraction = (apertureUm: number, netG: number): Fraction => ({
  apertureUm,
  emptyG: null,
  fullG: null,
  netG,
});

/** Net masses in g by aperture in um: "4000:3 2000:14 pan:2". */
export const fractionsOf = (text: string): Fraction[] =>
  text.split(" ").map((item) => {
    const [aperture = "", netG = ""] = item.split(":");
    return fraction(aperture === "pan" ? 0 : Number(aperture), Number(netG));
  });

const RECOVERED: GradingMasses = { basis: "recovered", chargeG: null, washedG: null };

/** The grading of fractions that must be gradable. */
export function gradedOf(fractions: readonly Fraction[], masses: Partial<GradingMasses> = {}): Grading {
  const outcome = grade(fractions, { ...RECOVERED, ...masses });
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

export const graded = (text: string, masses: Partial<GradingMasses> = {}): Grading =>
  gradedOf(fractionsOf(text), masses);

/** A grading whose sieves pass the given percentages: "4000:100 2000:83 1000:40"; the pan holds the rest. */
export function passing(text: string): Grading {
  const points = text.split(" ").map((item) => item.split(":").map(Number) as [number, number]);
  const retained = points.map(([um, pct], i) => fraction(um, (points[i - 1]?.[1] ?? 100) - pct));
  return gradedOf([...retained, fraction(0, points.at(-1)?.[1] ?? 0)]);
}

export const choices = (some: Partial<GradingChoices> = {}): GradingChoices => ({
  interpolation: "log-linear",
  fit: "least-squares",
  material: {},
  modulusSeries: "astm",
  modulusInterpolateMissing: false,
  ...some,
});

/** The number of a determination that must have one. */
export function numberOf(found: Determination): number {
  if (!found.determinable) throw new Error(found.reason);
  return found.value;
}

/** The reason of a determination that must have none. */
export function reasonOf(found: Determination): string {
  if (found.determinable) throw new Error(`determined as ${found.value} ${found.unit}`);
  return found.reason;
}

export const assumptionsOf = (found: Determination): readonly string[] =>
  found.determinable ? (found.assumptions ?? []) : [];

export const anyInterpolation = fc.constantFrom(...INTERPOLATIONS);

const anyMassG = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: 1, max: 50_000 }).map((n) => n / 100) },
  { weight: 1, arbitrary: fc.constant(0) },
  { weight: 1, arbitrary: fc.constantFrom(0.01, 100_000) },
);

/** Two to 64 sieves over a size ratio of up to 1e6 with the pan; masses from 0.01 g to 100 kg, some empty, not all. */
export const anyFractions = fc
  .record({
    aperturesUm: fc.uniqueArray(
      fc.double({ min: 0, max: 1, noNaN: true }).map((share) => Number((0.125 * 10 ** (6 * share)).toPrecision(4))),
      { minLength: 2, maxLength: 64 },
    ),
    massesG: fc.array(anyMassG, { minLength: 65, maxLength: 65 }),
  })
  .map(({ aperturesUm, massesG }) => [...aperturesUm, 0].map((um, i) => fraction(um, massesG[i] ?? 0)))
  .filter((fractions) => fractions.some((f) => f.netG > 0));

/** Two to twelve sieves, each at least 5 % coarser than the next, every one and the pan holding at least 0.5 g. */
export const risingFractions = fc
  .array(
    fc.record({
      ratio: fc.double({ min: 1.05, max: 9, noNaN: true }),
      netG: fc.integer({ min: 50, max: 50_000 }).map((n) => n / 100),
    }),
    { minLength: 3, maxLength: 13 },
  )
  .map((rows) => {
    let um = 20;
    return rows.map(({ ratio, netG }, i) => {
      um = i === 0 ? um : um * ratio;
      return fraction(i === 0 ? 0 : um, netG);
    });
  });
