import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { explainGap, type TypedMass } from "../../../src/procedure/loss/explainGap.ts";
import { SLIPS } from "../../../src/procedure/loss/mistypes.ts";

/** Masses in hundredths of a gram, so that sums are exact. */
const grams = (hundredths: number): number => hundredths / 100;

interface Sieve {
  readonly emptyH: number;
  readonly netH: number;
}
const anySieve: fc.Arbitrary<Sieve> = fc.record({
  emptyH: fc.integer({ min: 20_000, max: 60_000 }),
  netH: fc.integer({ min: 500, max: 12_000 }),
});

/** Two to twelve sieves with the pan and a loss of at most 0.2 %; every number typed right. */
const anyHonestTest = fc
  .record({
    sieves: fc.array(anySieve, { minLength: 2, maxLength: 12 }),
    lossShare: fc.double({ min: -0.002, max: 0.002, noNaN: true }),
  })
  .map(({ sieves, lossShare }) => {
    const netH = sieves.reduce((sum, sieve) => sum + sieve.netH, 0);
    const chargeH = Math.round(netH * (1 + lossShare));
    const weighed = sieves.flatMap((sieve, i): TypedMass[] => {
      const apertureUm = i === sieves.length - 1 ? 0 : 4000 - 300 * i;
      return [
        { field: "emptyG", apertureUm, typedG: grams(sieve.emptyH) },
        { field: "fullG", apertureUm, typedG: grams(sieve.emptyH + sieve.netH) },
      ];
    });
    const masses: TypedMass[] = [{ field: "chargeG", typedG: grams(chargeH) }, ...weighed];
    return { masses, allowedG: (0.3 * grams(chargeH)) / 100 };
  });

/** How a finger slips on a number of two decimals: on the digit at `place`, counted from the left. */
const FINGERS = {
  swap: (digits: string[], place: number): string[] => {
    const next = Math.min(place + 1, digits.length - 1);
    const out = [...digits];
    [out[place], out[next]] = [digits[next]!, digits[place]!];
    return out;
  },
  hundred: (digits: string[], place: number): string[] =>
    digits.map((d, i) => (i === place ? `${(Number(d) + 1) % 10}` : d)),
  wrong: (digits: string[], place: number): string[] =>
    digits.map((d, i) => (i === place ? `${(Number(d) + 7) % 10}` : d)),
} as const;

/** Slips that keep the number of digits, written in hundredths. */
const slippedG = (typedG: number, slip: keyof typeof FINGERS, share: number): number => {
  const digits = [...`${Math.round(typedG * 100)}`];
  return grams(Number(FINGERS[slip](digits, Math.floor(share * digits.length)).join("")));
};

const lossG = (masses: readonly TypedMass[]): number =>
  masses.reduce((sum, mass) => sum + (mass.field === "fullG" ? -1 : 1) * mass.typedG, 0);

const anyShare = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });

describe("any stack, any loss within the limit", () => {
  test("an honest test needs no explanation", () =>
    fc.assert(
      fc.property(anyHonestTest, ({ masses, allowedG }) => {
        expect(explainGap(masses, allowedG)).toEqual([]);
      }),
    ));

  test.each(["swap", "hundred", "wrong"] as const)(
    "one %s in any of its numbers is found, with the number meant",
    (slip) =>
      fc.assert(
        fc.property(anyHonestTest, anyShare, anyShare, ({ masses, allowedG }, which, place) => {
          const index = Math.floor(which * masses.length);
          const meant = masses[index]!;
          const typedG = slippedG(meant.typedG, slip, place);
          const typed = masses.map((mass, i) => (i === index ? { ...mass, typedG } : mass));
          fc.pre(Math.abs(lossG(typed)) > allowedG + 1e-6);
          const found = explainGap(typed, allowedG).find(
            (e) => e.field === meant.field && e.apertureUm === meant.apertureUm && e.meantG === meant.typedG,
          );
          expect(found).toBeDefined();
          expect(found!.lossLeftG).toBeCloseTo(lossG(masses), 9);
        }),
        { numRuns: 60 },
      ),
  );

  test("explanations are sorted by usualness, then by the commonness of the slip", () =>
    fc.assert(
      fc.property(anyHonestTest, anyShare, anyShare, ({ masses, allowedG }, which, place) => {
        const index = Math.floor(which * masses.length);
        const typedG = slippedG(masses[index]!.typedG, "hundred", place);
        const typed = masses.map((mass, i) => (i === index ? { ...mass, typedG } : mass));
        const ranks = explainGap(typed, allowedG).map((e) => (e.usual ? 0 : SLIPS.length) + SLIPS.indexOf(e.slip));
        expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
      }),
      { numRuns: 40 },
    ));

  test("no number is proposed twice for the same weighing", () =>
    fc.assert(
      fc.property(anyHonestTest, anyShare, ({ masses, allowedG }, place) => {
        const typed = masses.map((mass, i) =>
          i === 0 ? { ...mass, typedG: slippedG(mass.typedG, "wrong", place) } : mass,
        );
        const proposed = explainGap(typed, allowedG).map((e) => `${e.field} ${e.apertureUm} ${e.meantG}`);
        expect(new Set(proposed).size).toBe(proposed.length);
      }),
      { numRuns: 40 },
    ));

  test("the more loss is allowed, the more explanations there are, as long as the gap remains one", () =>
    fc.assert(
      fc.property(anyHonestTest, anyShare, ({ masses, allowedG }, which) => {
        const index = Math.floor(which * masses.length);
        const typedG = slippedG(masses[index]!.typedG, "hundred", 0);
        const typed = masses.map((mass, i) => (i === index ? { ...mass, typedG } : mass));
        fc.pre(Math.abs(lossG(typed)) > 1.5 * allowedG);
        const narrow = explainGap(typed, allowedG).length;
        expect(explainGap(typed, 1.5 * allowedG).length).toBeGreaterThanOrEqual(narrow);
      }),
      { numRuns: 40 },
    ));
});
