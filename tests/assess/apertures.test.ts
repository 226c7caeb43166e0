import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Circumstances } from "../../src/assess/assessment.ts";
import { meansOf } from "../../src/assess/drawnOver.ts";
import { type Assessment, assess } from "../../src/assess.ts";
import { drawsFrom } from "../../src/commands/draws.ts";
import type { Fraction } from "../../src/grading/grading.ts";
import type { MeanAperture } from "../../src/record/meanAperture.ts";
import type { Product } from "../../src/record/product.ts";
import { anyInterpolation, fractionsOf, numberOf, reasonOf, risingFractions } from "../grading/stack.ts";

const PRODUCT: Product = {
  schema: "sievewright.product/1",
  code: "TH-T1",
  name: "invented sand",
  revision: 1,
  stackUm: [1000, 500, 250],
  method: { apertures: "certified" },
  envelope: [
    { apertureUm: 1000, passingPct: { min: 70, max: 90 } },
    { apertureUm: 500, retainedPct: { min: 30, max: 50 } },
    { apertureUm: 500, coarserPct: { min: 50, max: 70 } },
    { apertureUm: 250, passingPct: { min: 5, max: 15 } },
  ],
  values: [{ id: "percentileUm", passingPct: 50, min: 600, max: 700 }],
};

const certified = (apertureUm: number, meanUm: number, more: object = {}): MeanAperture => ({
  apertureUm,
  serial: `S-${apertureUm}`,
  meanUm,
  restsOn: { certificate: { day: "2026-03-02", laboratory: "Invented Metrology" } },
  ...more,
});

interface Given {
  readonly product?: Product;
  readonly chargeG?: number;
  readonly washedG?: number;
  readonly circumstances?: Partial<Circumstances>;
}

function assessed(fractions: readonly Fraction[], means: readonly MeanAperture[], given: Given = {}): Assessment {
  const { product = PRODUCT, chargeG = null, washedG = null, circumstances = {} } = given;
  const rows = fractions.map(({ apertureUm }) => ({ apertureUm, serial: `S-${apertureUm}` }));
  const found = assess({ fractions, chargeG, washedG }, product, {
    readabilityG: 0.01,
    means: meansOf(rows, means),
    ...circumstances,
  });
  if (!found.ok) throw new Error(found.reason);
  return found.value;
}

/** Passing 80, 40 and 10 % of 100 g. */
const SAND = fractionsOf("1000:20 500:40 250:30 pan:10");
const MEANS = [certified(1000, 1020), certified(500, 510), certified(250, 245)];
const limitOn = ({ verdict }: Assessment, on: string) => verdict.limits.find((limit) => limit.on === on);
const overNominal = (apertures?: "nominal"): Product => ({ ...PRODUCT, method: apertures ? { apertures } : {} });
const plain = (assessment: Assessment) => JSON.stringify({ ...assessment, howSure: assessment.howSure.budget });

describe("a curve over certified mean apertures", () => {
  // Worked by hand on the log-linear curve through (245, 10), (510, 40), (1020, 80).
  const found = assessed(SAND, MEANS);

  test("leaves what each sieve held and passed as it was weighed", () => {
    expect(found.fractions.map((f) => [f.apertureUm, f.netG, f.passingPct])).toEqual([
      [1000, 20, 80],
      [500, 40, 40],
      [250, 30, 10],
      [0, 10, 0],
    ]);
    expect(found.fractions.map((f) => f.meanUm)).toEqual([1020, 510, 245, undefined]);
  });

  test("reads percentiles over them", () => {
    expect(numberOf(found.percentilesUm["50"] ?? never())).toBeCloseTo(510 * 2 ** 0.25, 9);
    expect(limitOn(found, "percentileUm@50")).toMatchObject({ result: "within" });
    expect(numberOf(found.percentilesUm["10"] ?? never())).toBe(245);
    expect(reasonOf(found.percentilesUm["5"] ?? never())).toBe("below 245.0 um (pan holds 10 %)");
    expect(reasonOf(found.percentilesUm["90"] ?? never())).toBe("above 1.020 mm (that sieve holds 20 %)");
  });

  test("reads limits at the nominal apertures: passing, coarser, and retained as the difference of two readings", () => {
    const at1000 = 40 + (40 * Math.log(1000 / 510)) / Math.log(2);
    const at500 = 10 + (30 * Math.log(500 / 245)) / Math.log(510 / 245);
    const at250 = 10 + (30 * Math.log(250 / 245)) / Math.log(510 / 245);
    expect([at1000, at500, at250].map((pct) => pct.toFixed(3))).toEqual(["78.857", "39.190", "10.827"]);
    expect(limitOn(found, "passingPct@1000")?.value).toBeCloseTo(at1000, 9);
    expect(limitOn(found, "retainedPct@500")?.value).toBeCloseTo(at1000 - at500, 9);
    expect(limitOn(found, "coarserPct@500")?.value).toBeCloseTo(100 - at500, 9);
    expect(limitOn(found, "passingPct@250")?.value).toBeCloseTo(at250, 9);
    expect(limitOn(found, "passingPct@250")?.reason).toBe("read at 250 um from the curve (log-linear)");
    expect(found.verdict.product).toBe("pass");
  });

  test("is told with the result: the choice, each sieve, what it rests on, what passes at its nominal aperture", () => {
    expect(found.apertures?.choice).toBe("certified");
    expect(found.apertures?.of.map((one) => [one.apertureUm, one.serial, one.known?.meanUm])).toEqual([
      [1000, "S-1000", 1020],
      [500, "S-500", 510],
      [250, "S-250", 245],
    ]);
    expect(numberOf(found.apertures?.of[1]?.passing ?? never())).toBeCloseTo(39.19, 2);
    expect(found.notices).toEqual([]);
  });

  test("gives the models the same sizes", () => {
    const [mean, nominal] = [
      found.models.rosinRammler,
      assessed(SAND, [], { product: overNominal() }).models.rosinRammler,
    ];
    if (!mean.determinable || !nominal.determinable) throw new Error("no fit");
    if (mean.model !== "rosinRammler" || nominal.model !== "rosinRammler") throw new Error("another model");
    expect(mean.used).toEqual({ fromUm: 245, toUm: 1020 });
    expect(mean.sizeUm).toBeGreaterThan(nominal.sizeUm);
  });
});

describe("the choice", () => {
  test("of nominal apertures, stated or not, gives today's result, whatever is known of the sieves", () =>
    fc.assert(
      fc.property(risingFractions, (fractions) => {
        const [stated, not] = [overNominal("nominal"), overNominal()];
        const means = fractions.map(({ apertureUm }) => certified(apertureUm, apertureUm * 1.01));
        const bare = assessed(fractions, [], { product: not });
        expect(plain(assessed(fractions, means, { product: stated }))).toBe(plain(bare));
        expect(bare).not.toHaveProperty("apertures");
        expect(bare.fractions.every((row) => !("meanUm" in row))).toBe(true);
      }),
      { numRuns: 30 },
    ));

  test("of certified ones that are exactly nominal changes no number", () =>
    fc.assert(
      fc.property(risingFractions, anyInterpolation, (fractions, interpolation) => {
        const means = fractions.map(({ apertureUm }) => certified(apertureUm, apertureUm));
        const options = { circumstances: { interpolation } };
        const over = assessed(fractions, means, options);
        const nominal = assessed(fractions, [], { product: overNominal(), ...options });
        const numbers = (all: Assessment["values"] | Assessment["percentilesUm"]) =>
          Object.entries(all).map(([id, found]) => [id, found.determinable ? found.value : null]);
        expect(numbers(over.percentilesUm)).toEqual(numbers(nominal.percentilesUm));
        expect(numbers(over.values)).toEqual(numbers(nominal.values));
      }),
      { numRuns: 50 },
    ));

  test("scales with the sieves: apertures so many times as wide give percentiles so many times as large", () =>
    fc.assert(
      fc.property(
        risingFractions,
        anyInterpolation,
        fc.double({ min: 0.9, max: 1.1, noNaN: true }),
        (fractions, interpolation, times) => {
          const means = fractions.map(({ apertureUm }) => certified(apertureUm, apertureUm * times));
          const options = { circumstances: { interpolation } };
          const over = assessed(fractions, means, options);
          const nominal = assessed(fractions, [], { product: overNominal(), ...options });
          for (const [q, found] of Object.entries(nominal.percentilesUm)) {
            const scaled = over.percentilesUm[q] ?? never();
            expect(scaled.determinable).toBe(found.determinable);
            if (found.determinable) expect(numberOf(scaled) / (times * found.value)).toBeCloseTo(1, 8);
          }
        },
      ),
      { numRuns: 100 },
    ));

  test("what passes at nominal sizes never falls as they grow, and stays between 0 and 100", () =>
    fc.assert(
      fc.property(
        risingFractions,
        anyInterpolation,
        fc.array(fc.double({ min: 0.98, max: 1.02, noNaN: true }), { minLength: 13, maxLength: 13 }),
        (fractions, interpolation, factors) => {
          const means = fractions.map(({ apertureUm }, i) => certified(apertureUm, apertureUm * (factors[i] ?? 1)));
          const { apertures } = assessed(fractions, means, { circumstances: { interpolation } });
          const found = (apertures?.of ?? []).flatMap(({ passing }) => (passing.determinable ? [passing.value] : []));
          for (const [i, pct] of found.entries()) {
            expect(pct).toBeGreaterThanOrEqual(found[i + 1] ?? 0);
            expect(pct).toBeLessThanOrEqual(100);
          }
        },
      ),
      { numRuns: 100 },
    ));
});

describe("a nominal aperture outside the curve", () => {
  test("is not determinable above a coarsest sieve that holds something, and the product never passes by it", () => {
    const found = assessed(SAND, [certified(1000, 995), ...MEANS.slice(1)]);
    const limit = limitOn(found, "passingPct@1000");
    expect(limit).toMatchObject({ value: null, result: "not determinable" });
    expect(limit?.reason).toBe("at 1.00 mm: above 995.0 um (that sieve holds 20 %)");
    expect(limitOn(found, "retainedPct@500")?.result).toBe("not determinable");
    expect(found.verdict.product).toBe("not judged");
  });

  test("is not determinable below a finest sieve that something passed", () => {
    const found = assessed(SAND, [...MEANS.slice(0, 2), certified(250, 252)]);
    expect(limitOn(found, "passingPct@250")?.reason).toBe("at 250 um: below 252.0 um (pan holds 10 %)");
    expect(found.verdict.product).toBe("not judged");
  });

  test("is 100 % above a sieve that passed all, and 0 % below one that passed nothing", () => {
    const all = assessed(fractionsOf("1000:0 500:60 250:30 pan:10"), [certified(1000, 995), ...MEANS.slice(1)]);
    expect(limitOn(all, "passingPct@1000")?.value).toBe(100);
    const none = assessed(fractionsOf("1000:20 500:50 250:30 pan:0"), [...MEANS.slice(0, 2), certified(250, 252)]);
    expect(limitOn(none, "passingPct@250")?.value).toBe(0);
  });
});

describe("a mean aperture that is not known", () => {
  const lacking = [
    certified(1000, 1020),
    { apertureUm: 500, serial: "S-500", lacks: "it has no certificate in the register" },
    certified(250, 245),
  ];
  const found = assessed(SAND, lacking);

  test("is not replaced by the nominal one: no size, no model and no limit is determined", () => {
    const all = [...Object.values(found.percentilesUm), ...Object.values(found.values)];
    expect(all.every(({ determinable }) => !determinable)).toBe(true);
    expect(reasonOf(found.values.finenessModulus)).toBe("the mean aperture of 500 um is not known");
    expect(Object.values(found.models).every(({ determinable }) => !determinable)).toBe(true);
    expect(found.verdict.limits.every(({ result }) => result === "not determinable")).toBe(true);
    expect(found.verdict.product).toBe("not judged");
    expect(found.howSure.budget.passing.every(({ determinable }) => !determinable)).toBe(true);
  });

  test("leaves the shares as weighed, and a notice says which sieve lacks what and what to do", () => {
    expect(found.fractions.map((f) => f.passingPct)).toEqual([80, 40, 10, 0]);
    const [notice] = found.notices;
    expect(notice).toMatchObject({ id: "aperture-unknown", severity: "warning" });
    expect(notice?.text).toContain("the 500 um sieve (S-500): it has no certificate in the register");
    expect(notice?.remedy).toContain("register the certificate");
  });

  test("is that of every sieve where no serial is told", () => {
    const bare = assess({ fractions: SAND, chargeG: null, washedG: null }, PRODUCT, { readabilityG: 0.01 });
    if (!bare.ok) throw new Error(bare.reason);
    expect(bare.value.notices[0]?.text).toContain(
      "the 1.00 mm sieve, the 500 um sieve, the 250 um sieve: no serial is told",
    );
    expect(bare.value.verdict.product).toBe("not judged");
  });

  test("which stands above that of a coarser sieve draws no curve", () => {
    const crossed = assessed(SAND, [certified(1000, 498), certified(500, 510), certified(250, 245)]);
    const [notice] = crossed.notices;
    expect(notice).toMatchObject({ id: "aperture-order", severity: "warning" });
    expect(notice?.text).toContain("the mean aperture of 500 um (510.0 um) is not below that of 1.00 mm (498.0 um)");
    expect(crossed.verdict.limits.every(({ result }) => result === "not determinable")).toBe(true);
  });

  test("by a certificate that ran out counts, with a warning", () => {
    const doubted = assessed(SAND, [certified(1000, 1020, { doubt: "its certificate ran out" }), ...MEANS.slice(1)]);
    expect(doubted.notices).toMatchObject([{ id: "aperture-doubt", severity: "warning" }]);
    expect(doubted.verdict.product).toBe("pass");
  });
});

describe("a washed test", () => {
  test("has its wash loss in the pan of the curve over mean apertures as well", () => {
    // 110 g before washing, 100 g after it: what passes 245 um is the pan and the wash loss, 20 of 110 g.
    const found = assessed(SAND, MEANS, { chargeG: 110, washedG: 100 });
    expect(found.fractions[2]?.passingPct).toBeCloseTo((100 * 20) / 110, 9);
    const [at245, at510] = [(100 * 20) / 110, (100 * 50) / 110];
    const at250 = at245 + ((at510 - at245) * Math.log(250 / 245)) / Math.log(510 / 245);
    expect(limitOn(found, "passingPct@250")?.value).toBeCloseTo(at250, 9);
  });
});

describe("values that count on named sieves", () => {
  const EN = "4000:5 2000:10 1000:20 500:30 250:20 125:10 pan:5";
  const meansOfAll = (times: number) => [4000, 2000, 1000, 500, 250, 125].map((um) => certified(um, um * times));
  const product: Product = { ...PRODUCT, values: [{ id: "finenessModulus", series: "en" }] };

  test("the fineness modulus reads each sieve of its series at the nominal aperture", () => {
    // Every step is a factor of two, and every mean aperture 2^0.1 times the nominal one: at a nominal aperture the curve
    // is a tenth of a step below the sieve. What is coarser: 5, 15, 35, 65, 85, 95 %, so between 125 and 250 um etc.
    const coarser = [5, 15, 35, 65, 85];
    const next = [15, 35, 65, 85, 95];
    const sum = coarser.reduce((all, pct, i) => all + pct + 0.1 * ((next[i] ?? 0) - pct), 0);
    const found = assessed(fractionsOf(`${EN}`), meansOfAll(2 ** 0.1), { product });
    // 125 um itself lies below the finest mean aperture, and the pan holds 5 %.
    expect(reasonOf(found.values.finenessModulus)).toContain("at 125 um: below 134.0 um");
    const empty = assessed(fractionsOf("4000:5 2000:10 1000:20 500:30 250:20 125:15 pan:0"), meansOfAll(2 ** 0.1), {
      product,
    });
    expect(numberOf(empty.values.finenessModulus)).toBeCloseTo((sum + 0.1 * 5 + 100) / 100, 9);
  });

  test("the grain fineness number weighs what lies between nominal apertures of its set", () => {
    const set = [3350, 1700, 850, 600, 425, 300, 212, 150, 106, 75, 53];
    const masses = set.map((um, i) => `${um}:${i + 1}`).join(" ");
    const nominal = assessed(fractionsOf(`3350:0 ${masses.slice(masses.indexOf(" ") + 1)} pan:0`), [], {
      product: overNominal(),
    });
    const over = (times: number) =>
      numberOf(
        assessed(
          fractionsOf(`3350:0 ${masses.slice(masses.indexOf(" ") + 1)} pan:0`),
          set.map((um) => certified(um, um * times)),
        ).values.grainFinenessNumber,
      );
    expect(over(1)).toBeCloseTo(numberOf(nominal.values.grainFinenessNumber), 9);
    // Wider sieves held coarser grains than their names say: fewer of them count as fine.
    expect(over(1.02)).toBeLessThan(over(1));
    expect(over(0.98)).toBeGreaterThan(over(1));
  });
});

describe("how sure it is", () => {
  const uOf = (means: readonly MeanAperture[], product: Product, on: string): number => {
    const { budget } = assessed(SAND, means, { product }).howSure;
    const sure = [...budget.asked, ...budget.passing].find(({ name }) => name === on);
    if (!sure?.determinable) throw new Error("no budget");
    const part = sure.components.find(({ id }) => id === "apertures");
    return part?.included ? part.u : Number.NaN;
  };
  const sure = (um: number) => ({ expandedUm: 0.002 * um });
  const withU = [certified(1000, 1020, sure(1020)), certified(500, 510, sure(510)), certified(250, 245, sure(245))];

  test("counts the certificate's own uncertainty, and not the deviation from nominal that the curve takes in", () => {
    const over = uOf(withU, PRODUCT, "percentileUm@50");
    const known = withU.map((mean) => ({ ...mean, expandedUm: 0.002 * ("meanUm" in mean ? mean.meanUm : 0) }));
    const { howSure } = assessed(SAND, [], {
      product: overNominal(),
      circumstances: {
        known: {
          knownApertures: known.map((m) => ({
            apertureUm: m.apertureUm,
            meanUm: "meanUm" in m ? m.meanUm : 0,
            expandedUm: m.expandedUm,
          })),
        },
      },
    });
    const nominal = howSure.budget.asked.find(({ name }) => name === "percentileUm@50");
    const part = nominal?.determinable ? nominal.components.find(({ id }) => id === "apertures") : undefined;
    // 2 % off and 0.1 % unsure: nominal counts both, drawn over the means only the latter.
    expect(part?.included && part.u / over).toBeGreaterThan(10);
    // A size moves with its sieves: 0.1 % of about 600 um, spread over two sieves.
    expect(over).toBeGreaterThan(0.3);
    expect(over).toBeLessThan(0.7);
  });

  test("takes the tolerance of the series where a certificate doesn't say how sure it is", () => {
    expect(uOf(MEANS, PRODUCT, "percentileUm@50")).toBeGreaterThan(5 * uOf(withU, PRODUCT, "percentileUm@50"));
    expect(uOf(MEANS, PRODUCT, "passingPct@500")).toBeGreaterThan(0);
  });

  test("is the same by draws, within what their numbers say", () => {
    const { howSure } = assessed(SAND, withU, { circumstances: { draws: drawsFrom(7) } });
    const compared = howSure.byDraws?.comparisons ?? [];
    const byName = new Map(compared.map((one) => [one.name, one]));
    for (const on of ["passingPct@500", "percentileUm@50", "retainedPct@500"]) {
      expect(byName.get(on)).toMatchObject({ agree: true, by: "first order" });
    }
  });

  test("says by what the apertures are known", () => {
    const bend = "; how the curve may bend where it is read at nominal apertures";
    const told = (product: Product) =>
      assessed(SAND, withU, { product }).howSure.budget.components.find(({ id }) => id === "apertures");
    expect(told(PRODUCT)).toMatchObject({ told: `all sieves by certificate${bend}` });
    expect(told({ ...PRODUCT, method: { apertures: "effective" } })).toMatchObject({
      told: `all sieves by a reference material${bend}`,
    });
  });
});

function never(): never {
  throw new Error("not there");
}
