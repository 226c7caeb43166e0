import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { explainGap, type GapExplanation, type TypedMass } from "../../../src/procedure/loss/explainGap.ts";

/** Invented test of filter sand: empties and fulls of six sieves and the pan, charge 300.20 g, loss 0.29 g. */
const APERTURES = [1400, 1000, 710, 500, 355, 0];
const EMPTY_G = [412.31, 398.74, 381.2, 366.95, 359.4, 354.1];
const FULL_G = [418.02, 455.2, 491.73, 447.36, 396.5, 363.8];
const CHARGE_G = 300.2;
const ALLOWED_G = 0.9;

const honest: TypedMass[] = [
  { field: "chargeG", typedG: CHARGE_G },
  ...APERTURES.flatMap((apertureUm, i): TypedMass[] => [
    { field: "emptyG", apertureUm, typedG: EMPTY_G[i]! },
    { field: "fullG", apertureUm, typedG: FULL_G[i]! },
  ]),
];

type Field = TypedMass["field"];
const at = (field: Field, apertureUm?: number) => (mass: { field: Field; apertureUm?: number }) =>
  mass.field === field && mass.apertureUm === apertureUm;

/** The honest test with one number typed otherwise. */
const mistyped = (field: Field, apertureUm: number | undefined, typedG: number, masses = honest): TypedMass[] =>
  masses.map((mass) => (at(field, apertureUm)(mass) ? { ...mass, typedG } : mass));

const withUsualEmpties = (masses: readonly TypedMass[]): TypedMass[] =>
  masses.map((mass, i) =>
    mass.field === "emptyG" ? { ...mass, usual: { massG: honest[i]!.typedG, withinG: 0.5 } } : mass,
  );

const found = (explanations: readonly GapExplanation[], field: Field, apertureUm: number | undefined, meantG: number) =>
  explanations.find((e) => at(field, apertureUm)(e) && e.meantG === meantG);

describe("a test whose masses meet", () => {
  test("needs no explanation", () => expect(explainGap(honest, ALLOWED_G)).toEqual([]));

  test("nor does one without a charge", () =>
    expect(explainGap(mistyped("fullG", 710, 419.73).slice(1), ALLOWED_G)).toEqual([]));

  test("nor does a gap of exactly the allowed loss", () => {
    const gapG = 0.29;
    expect(explainGap(honest, gapG)).toEqual([]);
    expect(explainGap(honest, gapG - 0.01).length).toBeGreaterThan(0);
  });
});

describe("one planted slip", () => {
  test.each([
    { name: "swap in a full weighing", field: "fullG", um: 710, typedG: 419.73, meantG: 491.73 },
    { name: "swap in an empty weighing", field: "emptyG", um: 500, typedG: 396.95, meantG: 366.95 },
    { name: "swap in the charge", field: "chargeG", um: undefined, typedG: 302.0, meantG: 300.2 },
    { name: "wrong hundred, full", field: "fullG", um: 500, typedG: 547.36, meantG: 447.36 },
    { name: "wrong ten, empty", field: "emptyG", um: 355, typedG: 349.4, meantG: 359.4 },
    { name: "wrong one, full", field: "fullG", um: 1400, typedG: 416.02, meantG: 418.02 },
    { name: "wrong hundred of the charge", field: "chargeG", um: undefined, typedG: 400.2, meantG: 300.2 },
    { name: "dropped digit, pan full", field: "fullG", um: 0, typedG: 33.8, meantG: 363.8 },
    { name: "dropped digit, empty", field: "emptyG", um: 1000, typedG: 39.74, meantG: 398.74 },
    { name: "dropped digit of the charge", field: "chargeG", um: undefined, typedG: 30.2, meantG: 300.2 },
    { name: "doubled digit, full", field: "fullG", um: 1000, typedG: 4455.2, meantG: 455.2 },
    { name: "point misplaced, full", field: "fullG", um: 355, typedG: 3965, meantG: 396.5 },
  ] as const)("$name is found with the number that was meant", ({ field, um, typedG, meantG }) => {
    const explanation = found(explainGap(mistyped(field, um, typedG), ALLOWED_G), field, um, meantG);
    expect(explanation).toMatchObject({ typedG, meantG });
    expect(explanation?.lossLeftG).toBeCloseTo(0.29, 9);
  });

  test("is in any number, of any digit: always among the explanations", () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: honest.length - 1 }),
        fc.constantFrom("swap", "drop", "double", "hundred", "digit"),
        fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
        fc.integer({ min: 0, max: 9 }),
        (index, slip, share, digit) => {
          const mass = honest[index]!;
          const typedG = slipped(mass.typedG.toFixed(2), slip, share, digit);
          const masses = honest.map((m, i) => (i === index ? { ...m, typedG } : m));
          const gapG = Math.abs(0.29 + (mass.field === "fullG" ? -1 : 1) * (typedG - mass.typedG));
          fc.pre(typedG >= 0 && gapG > ALLOWED_G + 1e-6);
          expect(found(explainGap(masses, ALLOWED_G), mass.field, mass.apertureUm, mass.typedG)).toBeDefined();
        },
      ),
      { numRuns: 300 },
    ));
});

function slipped(text: string, slip: string, share: number, digit: number): number {
  const places = [...text].flatMap((sign, i) => (sign === "." ? [] : [i]));
  const i = Math.floor(share * places.length);
  const place = places[i]!;
  const next = places[i + 1] ?? places[i - 1]!;
  const put = (at: number, sign: string, base = text) => base.slice(0, at) + sign + base.slice(at + 1);
  if (slip === "swap") return Number(put(next, text[place]!, put(place, text[next]!)));
  if (slip === "drop") return Number(text.slice(0, place) + text.slice(place + 1));
  if (slip === "double") return Number(text.slice(0, place) + text[place] + text.slice(place));
  if (slip === "hundred") return Number((Number(text) + [100, -100, 10, -10, 1, -1][digit % 6]!).toFixed(2));
  return Number(put(place, `${digit}`));
}

describe("the order of the explanations", () => {
  test("puts neighbouring digits swapped before a lone wrong digit", () => {
    const explanations = explainGap(mistyped("fullG", 710, 419.73), ALLOWED_G);
    expect(explanations[0]).toEqual({
      field: "fullG",
      apertureUm: 710,
      typedG: 419.73,
      meantG: 491.73,
      slip: "two digits swapped",
      lossLeftG: 0.29,
      usual: false,
    });
  });

  test("puts an empty sieve that becomes what it usually weighs before everything else", () => {
    const masses = withUsualEmpties(mistyped("emptyG", 500, 466.95));
    const first = explainGap(masses, ALLOWED_G)[0];
    expect(first).toMatchObject({ field: "emptyG", apertureUm: 500, meantG: 366.95, usual: true });
  });

  test("leaves out empty sieves that weigh what they usually do", () => {
    const masses = withUsualEmpties(mistyped("fullG", 500, 547.36));
    const empties = explainGap(masses, ALLOWED_G).filter((e) => e.field === "emptyG");
    expect(empties).toEqual([]);
  });

  test("prefers the smaller gap left among slips alike", () => {
    const explanations = explainGap(mistyped("fullG", 500, 547.36), ALLOWED_G);
    explanations.slice(1).forEach((later, i) => {
      const earlier = explanations[i]!;
      if (earlier.slip === later.slip && earlier.usual === later.usual)
        expect(Math.abs(earlier.lossLeftG)).toBeLessThanOrEqual(Math.abs(later.lossLeftG));
    });
    expect(explanations.length).toBeGreaterThan(2);
  });
});

describe("every explanation", () => {
  const anyTyped = fc.integer({ min: 0, max: honest.length - 1 }).chain((index) =>
    fc.double({ min: -150, max: 150, noNaN: true }).map((by) => {
      const mass = honest[index]!;
      const typedG = Math.max(0, Number((mass.typedG + by).toFixed(2)));
      return honest.map((m, i) => (i === index ? { ...m, typedG } : m));
    }),
  );
  const lossOf = (masses: readonly TypedMass[]): number =>
    masses.reduce((sum, m) => sum + (m.field === "fullG" ? -m.typedG : m.typedG), 0);

  test("closes the gap to within the allowed loss when put in place of what was typed", () =>
    fc.assert(
      fc.property(anyTyped, (masses) => {
        for (const e of explainGap(masses, ALLOWED_G)) {
          const repaired = masses.map((m) => (at(e.field, e.apertureUm)(m) ? { ...m, typedG: e.meantG } : m));
          expect(Math.abs(lossOf(repaired))).toBeLessThanOrEqual(ALLOWED_G + 1e-6);
          expect(lossOf(repaired)).toBeCloseTo(e.lossLeftG, 6);
        }
      }),
      { numRuns: 60 },
    ));

  test("leaves no sieve lighter full than empty", () =>
    fc.assert(
      fc.property(anyTyped, (masses) => {
        for (const e of explainGap(masses, ALLOWED_G)) {
          const other = masses.find((m) => m.apertureUm === e.apertureUm && m.field !== e.field);
          if (e.field === "fullG") expect(e.meantG).toBeGreaterThanOrEqual(other!.typedG);
          if (e.field === "emptyG") expect(e.meantG).toBeLessThanOrEqual(other!.typedG);
        }
      }),
      { numRuns: 60 },
    ));
});

describe("net masses", () => {
  test("are explained as well where no single weighings were noted", () => {
    const masses: TypedMass[] = [
      { field: "chargeG", typedG: 300 },
      { field: "netG", apertureUm: 1000, typedG: 65 },
      { field: "netG", apertureUm: 500, typedG: 201.4 },
      { field: "netG", apertureUm: 0, typedG: 42.4 },
    ];
    expect(explainGap(masses, 0.9)[0]).toMatchObject({ field: "netG", apertureUm: 1000, meantG: 56 });
  });
});
