import { describe, expect, test } from "vitest";
import { assessTest, curveOf, type Tested, weighedIn } from "../../src/assess/assessTest.ts";
import { assess } from "../../src/assess.ts";
import { BUDGET_MODEL } from "../../src/record/uncertainty.ts";
import { EMPTY_G, FILTER_SAND, FULL_G, Hands, NET_G } from "../run/hands.ts";

const tested = (change: Partial<Tested> = {}): Tested => ({ ...new Hands().tests().run.draft, ...change });
const weighed = (test: Tested) => {
  const found = weighedIn(test);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
};
const assessed = (test: Tested) => {
  const found = assessTest(test);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
};

describe("what a test weighed", () => {
  test("is full less empty for every sieve and the pan, with both weighings kept", () => {
    const { fractions } = weighed(tested());
    expect(fractions.map((f) => f.netG)).toEqual(NET_G);
    expect(fractions.map((f) => [f.emptyG, f.fullG])).toEqual(EMPTY_G.map((empty, row) => [empty, FULL_G[row]]));
  });

  test("has the charge, and the dry mass after washing where there is one", () => {
    expect(weighed(tested())).toMatchObject({ chargeG: 300.2, washedG: null });
    expect(weighed(tested({ chargeG: null })).chargeG).toBeNull();
    expect(weighed(tested({ washedG: 280 })).washedG).toBe(280);
  });

  test("sums what each sieve held in every portion", () => {
    const weighings = tested().weighings.map((w) => ({ ...w, earlierFullG: [w.fullG ?? 0, w.emptyG ?? 0] }));
    expect(weighed(tested({ weighings })).fractions.map((f) => f.netG)).toEqual(NET_G.map((net) => 2 * net));
  });

  test("tells how the test was conducted", () => {
    const { conduct } = weighed(tested({ moistG: 52.5, dryG: 50 }));
    expect(conduct).toMatchObject({ moisturePct: 5, endPoint: [], program: { code: "V10" } });
  });

  test.each([
    [0, "emptyG", "the 1.40 mm sieve is not weighed yet"],
    [3, "fullG", "the 500 um sieve is not weighed yet"],
    [5, "fullG", "the pan is not weighed yet"],
  ] as const)("without row %d weighed %s is not known, and says which", (row, column, reason) => {
    const weighings = tested().weighings.map((w, i) => (i === row ? { ...w, [column]: null } : w));
    expect(weighedIn(tested({ weighings }))).toEqual({ ok: false, reason });
    expect(assessTest(tested({ weighings }))).toEqual({ ok: false, reason });
  });
});

describe("a test assessed", () => {
  test("is what the one function says of its masses, its product and its balance", () => {
    const test = tested();
    const direct = assess(weighed(test), test.product, {
      readabilityG: 0.01,
      known: { balance: test.balance },
    });
    expect(JSON.stringify(assessTest(test))).toBe(JSON.stringify(direct));
  });

  test("by a coarser balance forgives what that balance can't read", () => {
    const weighings = tested().weighings.map((w, row) => (row === 0 ? { ...w, fullG: (w.emptyG ?? 0) - 0.05 } : w));
    expect(assessTest(tested({ weighings })).ok).toBe(false);
    const coarse = { id: "B2", capacityG: 6200, readabilityG: 0.1 };
    expect(assessed(tested({ weighings, balance: coarse })).fractions[0]).toMatchObject({ netG: 0 });
  });

  describe("signed for", () => {
    const guarded = { ...tested().product, decision: { rule: "guarded" } as const };
    const signed = { program: "0.1.0", test: "valid", product: "not judged", lossPct: 0.1 } as const;

    test("before uncertainty was computed leaves its guarded limits undecided, as they were signed", () => {
      const before = assessed(tested({ product: guarded, signed }));
      expect(before.verdict.product).toBe("not judged");
      const inside = before.verdict.limits.filter(({ result }) => result === "not determinable");
      expect(inside.length).toBeGreaterThan(0);
      for (const { reason } of inside) expect(reason).toContain("a recorded verdict is not made anew");
      const told = before.howSure.limits.map(({ judged }) => judged.on);
      for (const { on } of inside) expect(told).not.toContain(on);
    });

    test("with a budget is decided by it, then and now", () => {
      const { verdict } = assessed(tested({ product: guarded, signed: { ...signed, budget: BUDGET_MODEL } }));
      expect(verdict).toEqual(assessed(tested({ product: guarded })).verdict);
      expect(verdict.limits.every(({ guarded: by }) => by !== undefined)).toBe(true);
    });
  });

  test("its balance, portions, check minute and certified sieves bear on how sure it is", () => {
    const uOf = (change: Partial<Tested>) => {
      const [sure] = assessed(tested(change)).howSure.budget.passing.slice(2);
      if (!sure?.determinable) throw new Error("no budget");
      return sure.u;
    };
    const { balance } = tested();
    const plainly = uOf({});
    expect(uOf({ balance: { ...balance, repeatabilityG: 0.5 } })).toBeGreaterThan(plainly);
    const knownApertures = [1400, 1000, 710, 500, 355].map((apertureUm) => ({
      apertureUm,
      meanUm: apertureUm,
      expandedUm: 0.001 * apertureUm,
    }));
    expect(uOf({ knownApertures })).toBeLessThan(plainly);
  });

  test("is assessed anew when a mass was corrected, since a draft is never changed in place", () => {
    const before = tested();
    const first = assessed(before);
    const corrected = tested({ weighings: before.weighings.map((w, row) => (row === 2 ? { ...w, fullG: 500 } : w)) });
    expect(assessed(corrected).recoveredG).not.toBe(first.recoveredG);
    expect(assessed(before)).toBe(first);
  });

  test("remembers why it can't be assessed as well", () => {
    const unweighed: Tested = new Hands().setsOut().run.draft;
    expect(assessTest(unweighed)).toBe(assessTest(unweighed));
  });
});

describe("the curve of an assessment", () => {
  const found = assessed(tested());
  const curve = curveOf(found);

  test("goes through every sieve, rises with the size, and ends at the outer sieves", () => {
    for (const { apertureUm, passingPct } of found.fractions.slice(0, -1)) expect(curve(apertureUm)).toBe(passingPct);
    let before = 0;
    for (let um = 355; um <= 1400; um += 5) {
      const passing = curve(um);
      expect(passing).toBeGreaterThanOrEqual(before);
      before = passing ?? 0;
    }
    for (const beyond of [0, -1, 354.9, 1400.1, Number.NaN]) expect(curve(beyond)).toBeNull();
  });

  test("gives back the percentiles that were read from it", () => {
    for (const [pct, size] of Object.entries(found.percentilesUm)) {
      if (size.determinable) expect(curve(size.value)).toBeCloseTo(Number(pct), 8);
    }
  });

  test("is read as the product wants it", () => {
    const linear = assessed(tested({ product: { ...FILTER_SAND, method: { interpolation: "linear" } } }));
    expect(curveOf(linear)(855)).not.toBeCloseTo(curve(855) ?? 0, 3);
    const [coarser, finer] = [linear.fractions[1]?.passingPct ?? 0, linear.fractions[2]?.passingPct ?? 0];
    expect(curveOf(linear)(855)).toBeCloseTo((coarser + finer) / 2, 10);
  });
});
