import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { assessTest, curveOf, weighedIn } from "../src/assess/assessTest.ts";
import { type Assessment, assess, type Weighed } from "../src/assess.ts";
import * as fitting from "../src/grading/models/fitModels.ts";
import type { Product } from "../src/record/product.ts";
import { COMPONENT_IDS } from "../src/record/uncertainty.ts";
import { resumeRun } from "../src/run/start.ts";
import { anyFractions, fractionsOf, risingFractions } from "./grading/stack.ts";
import { BARLEY, FILTER_SAND, Hands, SETTING } from "./run/hands.ts";

vi.mock("../src/grading/models/fitModels.ts", { spy: true });

const READS = { readabilityG: 0.01 };
/** Recovered 299.90 g; put on 300.20 g unless a test says otherwise. */
const SAND = "1400:5.71 1000:56.46 710:112.3 500:92.18 355:28.75 pan:4.5";

const weighed = (text: string, change: Partial<Weighed> = {}): Weighed => ({
  fractions: fractionsOf(text),
  chargeG: 300.2,
  washedG: null,
  ...change,
});

function assessed(what: Weighed, product: Product | null = null, circumstances = {}): Assessment {
  const found = assess(what, product, { ...READS, ...circumstances });
  if (!found.ok) throw new Error(found.reason);
  return found.value;
}

const reasonFor = (what: Weighed, product: Product | null = null, circumstances = {}): string => {
  const found = assess(what, product, { ...READS, ...circumstances });
  return found.ok ? "" : found.reason;
};

const judgedBy = (change: Partial<Product>, text = SAND, weighing: Partial<Weighed> = {}) =>
  assessed(weighed(text, weighing), { ...BARLEY, ...change }).verdict;
const on500 = (min?: number, max?: number): Partial<Product> => ({
  envelope: [
    {
      apertureUm: 500,
      passingPct: { ...(min === undefined ? {} : { min }), ...(max === undefined ? {} : { max }) },
    },
  ],
});
/** What passes 500 um of the sand above, of the recovered total. */
const PASSING_500 = (100 * (28.75 + 4.5)) / 299.9;

describe("the masses", () => {
  test("give charge, recovered and what was lost on the way, as a share of the charge", () => {
    const { chargeG, recoveredG, lossG, lossPct } = assessed(weighed(SAND));
    expect({ chargeG, recoveredG, lossG }).toEqual({ chargeG: 300.2, recoveredG: 299.9, lossG: 0.3 });
    expect(lossPct).toBeCloseTo(30 / 300.2, 12);
  });

  test("without a charge tell no loss, and everything else all the same", () => {
    const without = assessed(weighed(SAND, { chargeG: null }));
    expect(without).toMatchObject({ chargeG: null, lossG: null, lossPct: null, recoveredG: 299.9 });
    expect(without.fractions).toEqual(assessed(weighed(SAND)).fractions);
  });

  test("with a pan that was not weighed tell no loss, though one could be computed", () => {
    const { lossG, lossPct, verdict } = assessed(weighed(SAND, { panAssumed: true }), FILTER_SAND);
    expect({ lossG, lossPct }).toEqual({ lossG: null, lossPct: null });
    expect(verdict.test).toBe("not checked");
  });

  test("of which nothing can be made are refused in the operator's words", () => {
    expect(reasonFor(weighed("1000:0 500:0 pan:0"))).toContain("all masses are zero");
    expect(reasonFor(weighed("1000:5 500:5"))).toContain("the pan is missing");
    expect(reasonFor(weighed("1000:5 1000:5 pan:1"))).toContain("is there twice");
    expect(reasonFor(weighed("1000:5 pan:NaN"))).toContain("no net mass");
  });
});

describe("a sieve lighter full than empty", () => {
  test.each([-0.01, -0.005])("by %d g, within what the balance reads, counts as nothing and is noted", (netG) => {
    const found = assessed(weighed(`1000:${netG} 500:5 pan:1`, { chargeG: 6 }));
    expect(found.fractions[0]).toMatchObject({ netG: 0, retainedPct: 0, passingPct: 100 });
    expect(found.notices).toContainEqual({
      id: "below-empty",
      severity: "note",
      text: `the 1.00 mm sieve is ${-netG} g lighter full than empty, within what the balance reads: counted as 0`,
    });
  });

  test("by more is refused, naming the sieve and what to do", () => {
    expect(reasonFor(weighed("1000:-0.02 500:5 pan:1"))).toBe(
      "the 1.00 mm sieve is 0.02 g lighter full than empty: weigh it again",
    );
    expect(reasonFor(weighed("1000:3 pan:-1"))).toContain("the pan is 1 g lighter");
  });

  test("is forgiven more by a balance that reads more coarsely", () => {
    expect(assess(weighed("1000:-0.09 pan:5"), null, { readabilityG: 0.1 }).ok).toBe(true);
    expect(assess(weighed("1000:-0.09 pan:5"), null, { readabilityG: 0.01 }).ok).toBe(false);
  });
});

describe("percentages", () => {
  test("are of the recovered total unless somebody says otherwise", () => {
    const { basis, fractions } = assessed(weighed(SAND));
    expect(basis).toBe("recovered");
    expect(fractions.at(3)?.passingPct).toBeCloseTo(PASSING_500, 12);
    expect(fractions.reduce((sum, f) => sum + f.retainedPct, 0)).toBeCloseTo(100, 10);
  });

  test("of the charge count what was lost as passing the finest sieve", () => {
    const { fractions } = assessed(weighed(SAND), { ...BARLEY, method: { basis: "charge" } });
    expect(fractions.at(-2)?.passingPct).toBeCloseTo((100 * (4.5 + 0.3)) / 300.2, 10);
  });

  test("of a charge that was not weighed are refused, with what to do", () => {
    expect(reasonFor(weighed(SAND, { chargeG: null }), null, { basis: "charge" })).toContain("weigh it");
  });

  test.each(["recovered", "charge"] as const)("the caller's basis %s beats the product's", (basis) => {
    const other = basis === "charge" ? "recovered" : "charge";
    expect(assessed(weighed(SAND), { ...BARLEY, method: { basis: other } }, { basis }).basis).toBe(basis);
  });

  test("the caller's interpolation beats the product's, which beats log-linear", () => {
    const linear: Product = { ...BARLEY, method: { interpolation: "linear" } };
    expect(assessed(weighed(SAND)).interpolation).toBe("log-linear");
    expect(assessed(weighed(SAND), linear).interpolation).toBe("linear");
    expect(assessed(weighed(SAND), linear, { interpolation: "monotone" }).interpolation).toBe("monotone");
    expect(assessed(weighed(SAND), linear).percentilesUm["50"]).not.toEqual(
      assessed(weighed(SAND)).percentilesUm["50"],
    );
  });
});

describe("a washed test", () => {
  /** 500 g dry, 460 g left after washing, 459.8 g recovered. */
  const WASHED = weighed("1000:100 500:300 pan:59.8", { chargeG: 500, washedG: 460 });

  test("has what was washed away join the pan", () => {
    const { fractions } = assessed(WASHED);
    expect(fractions.at(-1)).toMatchObject({ netG: 59.8, coarserPct: 100, passingPct: 0 });
    expect(fractions.at(-1)?.retainedPct).toBeCloseTo((100 * 99.8) / 499.8, 12);
    expect(fractions.at(1)?.passingPct).toBeCloseTo((100 * 99.8) / 499.8, 12);
  });

  test("closes against the dry mass after washing, not before it", () => {
    const { lossG, lossPct, chargeG } = assessed(WASHED);
    expect(chargeG).toBe(500);
    expect(lossG).toBe(0.2);
    expect(lossPct).toBeCloseTo(20 / 460, 12);
  });

  test("is invalid for a loss on the sieves however much was washed away", () => {
    const limited: Product = { ...BARLEY, method: { washed: true, maxLossPct: 0.3 } };
    expect(assessed(WASHED, limited).verdict.test).toBe("valid");
    expect(assessed({ ...WASHED, washedG: 470 }, limited).verdict.test).toBe("invalid");
  });

  test("needs both dry masses, and the second not above the first", () => {
    expect(reasonFor({ ...WASHED, chargeG: null })).toContain("before washing");
    expect(reasonFor({ ...WASHED, washedG: 501 })).toContain("above that before it");
  });
});

describe("the verdict on the test", () => {
  const LIMITED: Product = { ...BARLEY, ...on500(0, 100), method: { maxLossPct: 0.3 } };
  const verdictAt = (chargeG: number | null, product: Product | null = LIMITED) =>
    assessed(weighed(SAND, { chargeG }), product).verdict;

  test.each([
    [300.8, "valid"],
    [300.9, "invalid"],
    [299.9, "valid"],
    [299.01, "valid"],
    [298.9, "invalid"],
  ])("a charge of %d g against 299.90 g recovered, limit 0.3 %% either way: %s", (chargeG, verdict) => {
    expect(verdictAt(chargeG).test).toBe(verdict);
  });

  test("a gain is named a gain, a loss a loss, each with figure and limit", () => {
    const words = (chargeG: number) => assessed(weighed(SAND, { chargeG }), LIMITED).notices[0];
    expect(words(310)).toMatchObject({ id: "loss-high", severity: "invalidates", found: "3.26 %", limit: "0.3 %" });
    expect(words(290)).toMatchObject({ id: "gain-high", severity: "invalidates", found: "3.41 %", limit: "0.3 %" });
  });

  test("is not checked where no loss can be told or no limit is set", () => {
    expect(verdictAt(null).test).toBe("not checked");
    expect(verdictAt(300, { ...BARLEY, ...on500(0, 100) }).test).toBe("not checked");
    expect(verdictAt(300, null).test).toBe("not checked");
  });

  test("follows the rule set that the product names, and says which one it was", () => {
    const named: Product = { ...BARLEY, method: { procedure: { ruleSet: "astm-c136-2020" } } };
    const { verdict, procedure } = assessed(weighed(SAND, { chargeG: 301 }), named);
    expect(verdict.test).toBe("invalid");
    expect(procedure.ruleSet).toMatchObject({ id: "astm-c136-2020" });
    expect(procedure.ruleSet?.title).toMatch(/^ASTM C136\/C136M, /);
    expect(procedure.rules.map((rule) => rule.rule)).toContain("loss");
    expect(assessed(weighed(SAND), null).procedure.ruleSet).toBeNull();
  });

  test("every check is told in the order of the work, whether it was asked for or not", () => {
    expect(assessed(weighed(SAND), FILTER_SAND).procedure.checks.map((check) => check.check)).toEqual([
      "balance",
      "sieves",
      "charge",
      "readability",
      "moisture",
      "washing",
      "program",
      "load",
      "end point",
      "loss",
    ]);
  });
});

describe("the verdict on the product", () => {
  test.each([
    ["inside both limits", on500(10, 12), "pass"],
    ["on the upper limit", on500(0, PASSING_500), "pass"],
    ["above it", on500(0, PASSING_500 - 1e-6), "fail"],
    ["below the lower one", on500(PASSING_500 + 1e-6, 100), "fail"],
    ["without any limit", {}, "not judged"],
  ] as const)("%s: %s", (_words, change, verdict) => {
    expect(judgedBy(change).product).toBe(verdict);
  });

  test("without a product nothing is judged", () => {
    expect(assessed(weighed(SAND)).verdict).toEqual({ test: "not checked", product: "not judged", limits: [] });
  });

  test("one limit missed fails it, however many are met", () => {
    expect(judgedBy({ ...on500(0, 50), values: [{ id: "relativeSpan", max: 0.1 }] }).product).toBe("fail");
  });

  test("a limit that can't be told leaves it not judged, never passed, with the reason", () => {
    const verdict = judgedBy({ envelope: [{ apertureUm: 600, passingPct: { max: 100 } }] });
    expect(verdict.product).toBe("not judged");
    expect(verdict.limits[0]).toMatchObject({ on: "passingPct@600", value: null, result: "not determinable" });
    expect(verdict.limits[0]?.reason).toContain("600 um");
  });

  test("a limit missed outweighs one that can't be told", () => {
    const envelope = [
      { apertureUm: 600, passingPct: { max: 100 } },
      { apertureUm: 500, passingPct: { max: 1 } },
    ];
    expect(judgedBy({ envelope }).product).toBe("fail");
  });

  test("an aperture that the stack lacks is read from the curve where the product allows it, and that is told", () => {
    const limit = { envelope: [{ apertureUm: 600, passingPct: { max: 100 } }] };
    const verdict = judgedBy({ ...limit, method: { interpolateMissing: true } });
    expect(verdict.product).toBe("pass");
    expect(verdict.limits[0]?.reason).toContain("read from the curve");
  });

  test("an invalid test neither passes nor fails a product, but shows what was found", () => {
    const method = { maxLossPct: 0.05 };
    expect(judgedBy({ ...on500(0, 100), method })).toMatchObject({ test: "invalid", product: "not judged" });
    expect(judgedBy({ ...on500(0, 1), method }).limits[0]).toMatchObject({ result: "above" });
    expect(judgedBy({ ...on500(0, 1), method }).product).toBe("not judged");
  });

  test("follows the product's own rule of decision", () => {
    expect(judgedBy({ ...on500(0, 10.9), decision: { rule: "simple", compare: { roundedTo: 1 } } }).product).toBe(
      "fail",
    );
    expect(judgedBy({ ...on500(0, 11), decision: { rule: "simple", compare: { roundedTo: 1 } } }).product).toBe("pass");
    expect(judgedBy({ ...on500(0, 11), decision: { rule: "simple" } }).product).toBe("fail");
  });

  describe("with a guarded rule", () => {
    // 11.087 % pass 500 um, found with sieves anywhere within their tolerance.
    const guarded = { rule: "guarded" } as const;

    test("passes what is inside by the guard band, is borderline nearer, fails beyond the limit", () => {
      expect(judgedBy({ ...on500(0, 20), decision: guarded }).product).toBe("pass");
      expect(judgedBy({ ...on500(0, 11.2), decision: guarded }).product).toBe("borderline");
      expect(judgedBy({ ...on500(0, 11), decision: guarded }).product).toBe("fail");
    });

    test("says what it decided with, which is what is shown of that number", () => {
      const product = { ...BARLEY, ...on500(0, 11.2), decision: guarded };
      const { verdict, howSure } = assessed(weighed(SAND), product);
      const [limit] = verdict.limits;
      const sure = howSure.budget.passing.find(({ name }) => name === "passingPct@500");
      if (!sure?.determinable) throw new Error("500 um has no budget");
      expect(limit?.guarded).toEqual({
        u: sure.u,
        U: 2 * sure.u,
        guard: 1.645 * sure.u,
        conformity: howSure.limits[0]?.decided.conformity,
      });
      expect(howSure.decides).toMatchObject({ name: "passingPct@500", result: "borderline", side: "max" });
    });

    test("has no guard band at 0 and 100 %, which nothing can be beyond", () => {
      const [limit] = judgedBy({ ...on500(0, 100), decision: guarded }).limits;
      expect(limit).toMatchObject({ result: "within", guarded: { conformity: 1 } });
    });

    test("can be the rule of one limit alone, and another for one limit", () => {
      const own = { envelope: [{ apertureUm: 500, passingPct: { max: 11.2 }, decision: guarded }] };
      expect(judgedBy(own).product).toBe("borderline");
      const simply = {
        envelope: [{ apertureUm: 500, passingPct: { max: 11.2 }, decision: { rule: "simple" } as const }],
      };
      expect(judgedBy({ ...simply, decision: guarded }).product).toBe("pass");
    });

    test("that guards rejection calls only that outside which is so beyond the band", () => {
      const decision = { rule: "guarded", guards: "rejection" } as const;
      expect(judgedBy({ ...on500(0, 11), decision }).product).toBe("borderline");
      expect(judgedBy({ ...on500(0, 11.2), decision }).product).toBe("pass");
      expect(judgedBy({ ...on500(0, 9), decision }).product).toBe("fail");
    });

    test("decides nothing where no source of uncertainty is counted, and says so", () => {
      const off = [...COMPONENT_IDS];
      const { product, limits } = judgedBy({ ...on500(0, 20), decision: guarded, uncertainty: { off } });
      expect(product).toBe("not judged");
      expect(limits[0]?.reason).toContain("no source of uncertainty is known or counted");
    });

    test("counts its band from where rounding turns: 11.4 of at most 11 in whole percent is inside, by too little", () => {
      const decision = { rule: "guarded", compare: { roundedTo: 1 } } as const;
      expect(judgedBy({ ...on500(0, 11), decision }).product).toBe("borderline");
      expect(judgedBy({ ...on500(0, 14), decision }).product).toBe("pass");
      expect(judgedBy({ ...on500(0, 10), decision }).product).toBe("fail");
    });

    test("works nothing out where every limit is decided simply, until it is shown", () => {
      const { verdict } = assessed(weighed(SAND), { ...BARLEY, ...on500(0, 11.2) });
      expect(verdict.limits[0]).not.toHaveProperty("guarded");
    });
  });

  test("limits on percentiles and values are judged as those on apertures", () => {
    const values: Product["values"] = [
      { id: "percentileUm", passingPct: 50, min: 690, max: 790 },
      { id: "uniformityCoefficient", max: 1.2 },
    ];
    const { limits, product } = judgedBy({ values });
    expect(limits.map(({ on, result }) => [on, result])).toEqual([
      ["percentileUm@50", "within"],
      ["uniformityCoefficient", "above"],
    ]);
    expect(product).toBe("fail");
  });
});

describe("an open end that carries much of the mass", () => {
  /** The pan holds 20 %, the coarsest sieve nothing. */
  const FINE = "1000:0 500:80 pan:20";
  const openEnds = (product: Product | null, text = FINE) =>
    assessed(weighed(text, { chargeG: 100 }), product)
      .notices.filter((notice) => notice.id === "open-end")
      .map(({ severity, text: words }) => [severity, words.split(":")[0]]);

  test("is a warning where the product asks for a value that rests on its assumed size", () => {
    const warned = [["warning", "the pan holds 20 %"]];
    expect(openEnds({ ...BARLEY, show: ["massMeanDiameterUm"] })).toEqual(warned);
    expect(openEnds({ ...BARLEY, values: [{ id: "massMeanDiameterUm", min: 1 }] })).toEqual(warned);
  });

  test("is no warning where nobody asks for such a value", () => {
    expect(openEnds(BARLEY)).toEqual([]);
    expect(openEnds({ ...BARLEY, show: ["percentileUm@50"] })).toEqual([]);
  });

  test("is a note where every value is shown, for want of a product", () => {
    expect(openEnds(null)).toEqual([["note", "the pan holds 20 %"]]);
  });

  test("is not told of an end that holds 5 % at most, or of a pan that the product drops", () => {
    expect(openEnds(null, "1000:0 500:95 pan:5")).toEqual([]);
    expect(openEnds({ ...BARLEY, show: ["massMeanDiameterUm"], method: { pan: "dropped" } })).toEqual([]);
  });
});

describe("models", () => {
  test("are fitted when first asked for and then kept", () => {
    const fit = vi.mocked(fitting.fitModels);
    fit.mockClear();
    const found = assessed(weighed(SAND));
    expect(fit).not.toHaveBeenCalled();
    const { models } = found;
    expect(found.models).toBe(models);
    expect(fit).toHaveBeenCalledTimes(1);
    expect(models.rosinRammler.determinable).toBe(true);
  });

  test("follow the product's rule of fitting", () => {
    const { models } = assessed(weighed(SAND), { ...BARLEY, method: { fit: "line" } });
    expect(models.logNormal).toMatchObject({ determinable: true, rule: "line" });
  });
});

describe("a test", () => {
  test("in which a mass is missing is not assessable, and the sieve is named", () => {
    const { draft } = new Hands().setsOut().weighs([412.31]).run;
    expect(weighedIn(draft)).toEqual({ ok: false, reason: "the 1.40 mm sieve is not weighed yet" });
    expect(assessTest(draft).ok).toBe(false);
  });

  test("is assessed once, however often it is shown", () => {
    const { draft } = new Hands().tests().run;
    expect(assessTest(draft)).toBe(assessTest(draft));
    expect(assessTest({ ...draft })).not.toBe(assessTest(draft));
  });

  test("keeps its verdict when the library gets a stricter revision, even if it is taken up again and all accepted anew", () => {
    const stricter: Product = { ...FILTER_SAND, ...on500(0, 1), revision: 4 };
    const hands = new Hands().tests();
    const before = assessTest(hands.run.draft);
    const library = { ...SETTING, products: [stricter, BARLEY] };
    hands.run = resumeRun(JSON.parse(JSON.stringify(hands.run.draft)), library);
    hands.does({ type: "stageChosen", stage: "set out" }).enters("TH-0510").enter(10);
    expect(hands.run.draft.product).toEqual(FILTER_SAND);
    expect(JSON.stringify(assessTest(hands.run.draft))).toBe(JSON.stringify(before));
    expect(before.ok && before.value.verdict.product).toBe("pass");
  });

  test("of another revision is judged by its own copy alone", () => {
    const { draft } = new Hands().tests().run;
    const stricter = { ...draft, product: { ...draft.product, revision: 4, ...on500(0, 1) } };
    const found = assessTest(stricter);
    expect(found.ok && found.value.verdict.product).toBe("fail");
  });
});

describe("the curve", () => {
  test("is the sieve's own figure at a sieve and nothing beyond the sieves", () => {
    const curve = curveOf(assessed(weighed(SAND)));
    expect(curve(500)).toBeCloseTo(PASSING_500, 12);
    expect(curve(1401)).toBeNull();
    expect(curve(354)).toBeNull();
    expect(curve(0)).toBeNull();
  });
});

/** Every number anywhere in an assessment, with the way to it. */
function numbersIn(found: unknown, way = ""): (readonly [string, number])[] {
  if (typeof found === "number") return [[way, found]];
  if (typeof found !== "object" || found === null) return [];
  return Object.entries(found).flatMap(([key, inner]) => numbersIn(inner, `${way}.${key}`));
}

/** Figures of an assessment by which two gradings of the same sand are told to be the same. */
const figures = ({ fractions, percentilesUm, values, lossPct }: Assessment) =>
  numbersIn({ passing: fractions.map((f) => f.passingPct), percentilesUm, values, lossPct });
/** How far each fitted curve stays from its points; the parameters of a poor fit are hardly pinned down, this is. */
const misfits = ({ models }: Assessment) => Object.values(models).map((fit) => (fit.determinable ? fit.rmsPct : null));

const anyWeighed = (fractions: typeof anyFractions): fc.Arbitrary<Weighed> =>
  fc
    .record({ fractions, lostShare: fc.double({ min: -0.02, max: 0.02, noNaN: true }), known: fc.boolean() })
    .map(({ fractions: all, lostShare, known }) => {
      const total = all.reduce((sum, f) => sum + f.netG, 0);
      return { fractions: all, chargeG: known ? total * (1 + lostShare) : null, washedG: null };
    });

describe("whatever was weighed", () => {
  test("no number anywhere in the assessment is NaN or endless", () => {
    fc.assert(
      fc.property(anyWeighed(anyFractions), (what) => {
        const found = assess(what, FILTER_SAND, READS);
        const numbers = found.ok ? numbersIn({ ...found.value, models: found.value.models }) : [];
        expect(found.ok && numbers.length > 0).toBe(true);
        for (const [way, number] of numbers) expect([way, Number.isFinite(number)]).toEqual([way, true]);
      }),
      { numRuns: 150 },
    );
  });

  test("the order of the rows does not matter", () => {
    const shuffled = anyWeighed(anyFractions).chain((what) =>
      fc
        .shuffledSubarray([...what.fractions], { minLength: what.fractions.length })
        .map((rows) => [what, rows] as const),
    );
    fc.assert(
      fc.property(shuffled, ([what, rows]) => {
        expect(assess({ ...what, fractions: rows }, BARLEY, READS)).toEqual(assess(what, BARLEY, READS));
      }),
      { numRuns: 100 },
    );
  });

  test("all masses times a constant change no percentage, no size, no value and no verdict", () => {
    fc.assert(
      fc.property(anyWeighed(risingFractions), fc.constantFrom(2, 10, 1000, 0.5), (what, times) => {
        const more = {
          ...what,
          chargeG: what.chargeG === null ? null : what.chargeG * times,
          fractions: what.fractions.map((f) => ({ ...f, netG: f.netG * times })),
        };
        const [one, other] = [assessed(what, FILTER_SAND), assessed(more, FILTER_SAND)];
        expect(other.verdict.test).toBe(one.verdict.test);
        expect(other.verdict.product).toBe(one.verdict.product);
        const [before, after] = [figures(one), figures(other)];
        expect(after.map(([way]) => way)).toEqual(before.map(([way]) => way));
        for (const [i, [way, figure]] of before.entries())
          expect([way, Math.abs((after[i]?.[1] ?? 0) - figure) <= 1e-6 * Math.max(1e-3, Math.abs(figure))]).toEqual([
            way,
            true,
          ]);
        for (const [i, misfit] of misfits(one).entries()) expect(misfits(other)[i] ?? 0).toBeCloseTo(misfit ?? 0, 3);
      }),
      { numRuns: 100 },
    );
  });

  test("a curve that stays inside its envelope passes, and one pushed out of it fails", () => {
    const shift = fc.double({ min: -4.9, max: 4.9, noNaN: true });
    fc.assert(
      fc.property(risingFractions, shift, fc.nat(), (fractions, offPct, at) => {
        const curve = assessed({ fractions, chargeG: null, washedG: null }).fractions.filter((f) => f.apertureUm > 0);
        const bounds = (offset: number) =>
          curve.map(({ apertureUm, passingPct }) => {
            const centre = passingPct + offset;
            return { apertureUm, passingPct: { min: Math.max(0, centre - 5), max: Math.min(100, centre + 5) } };
          });
        const inside = { ...BARLEY, envelope: bounds(offPct) };
        expect(assessed({ fractions, chargeG: null, washedG: null }, inside).verdict.product).toBe("pass");
        const row = at % curve.length;
        const wrong = bounds(0).map((bound, i) =>
          i === row ? { ...bound, passingPct: { max: Math.max(0, (curve[row]?.passingPct ?? 0) - 0.001) } } : bound,
        );
        expect(
          assessed({ fractions, chargeG: null, washedG: null }, { ...BARLEY, envelope: wrong }).verdict.product,
        ).toBe("fail");
      }),
      { numRuns: 100 },
    );
  });
});

describe("what a held or an unasked figure must say", () => {
  const overfull = [
    { apertureUm: 500, emptyG: null, fullG: null, netG: 60 },
    { apertureUm: 250, emptyG: null, fullG: null, netG: 45 },
    { apertureUm: 0, emptyG: null, fullG: null, netG: 5 },
  ];

  test("sieves that hold more than the charge: passing held at 0 is told", () => {
    const found = assess({ fractions: overfull, chargeG: 100, washedG: null }, null, {
      readabilityG: 0.01,
      basis: "charge",
    });
    expect(found.ok && found.value.fractions[1]?.passingPct).toBe(0);
    expect(found.ok && found.value.notices.map((n) => n.id)).toContain("passing-held-at-0");
    expect(found.ok && found.value.notices.find((n) => n.id === "passing-held-at-0")?.text).toContain(
      "5 g more than the charge",
    );
  });

  test("the same on the recovered total holds nothing and tells nothing", () => {
    const found = assess({ fractions: overfull, chargeG: 100, washedG: null }, null, { readabilityG: 0.01 });
    expect(found.ok && found.value.notices.map((n) => n.id)).not.toContain("passing-held-at-0");
  });
});
