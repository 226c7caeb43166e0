import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { budgetOf } from "../../../src/uncertainty/budget.ts";
import { type BetweenStations, betweenStations } from "../../../src/uncertainty/replicates/betweenStations.ts";
import { cochran, cochranCritical } from "../../../src/uncertainty/replicates/cochran.ts";
import { grubbs, grubbsCritical } from "../../../src/uncertainty/replicates/grubbs.ts";
import { grubbsPair, grubbsPairCritical } from "../../../src/uncertainty/replicates/grubbsPair.ts";
import { largestResidual } from "../../../src/uncertainty/replicates/largestResidual.ts";
import { mandelH, mandelK } from "../../../src/uncertainty/replicates/mandel.ts";
import { repeatablePart, replicates } from "../../../src/uncertainty/replicates/replicates.ts";
import { summaryOf } from "../../../src/uncertainty/replicates/summary.ts";
import { expectNear } from "../../grading/near.ts";
import glucose from "../../published/examples/n-e691-glucose.json" with { type: "json" };
import { normalFrom, seeded } from "../simulation/chance.ts";
import { ALL_KNOWN, passingSure, sand, uPart } from "../situations.ts";

const analysed = (groups: readonly (readonly number[])[]): BetweenStations => {
  const outcome = betweenStations(groups.map((results, i) => ({ station: `S${i + 1}`, results })));
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

describe("replicates", () => {
  test("by hand: mean 40.2, s_r 0.2, r 0.56", () => {
    const found = replicates([40, 40.2, 40.4]);
    expectNear(found.mean, 40.2, 1e-12);
    expectNear(found.sr!, 0.2, 1e-9);
    expectNear(found.r!, 0.56, 1e-9);
    expect(found.honesty).toBeNull();
  });

  test("one result has a mean and nothing else; none is a fault of the caller", () => {
    expect(replicates([3], { u: 1 })).toEqual({
      ...{ count: 1, mean: 3, sr: null, r: null, grubbs: null, grubbsPair: null, honesty: null },
    });
    expect(() => replicates([])).toThrow(RangeError);
    expect(() => summaryOf([])).toThrow(RangeError);
  });

  test("the budget is honest if (n - 1) s^2 / u^2 lies between the chi-square points", () => {
    const results = [10, 10.2, 9.8, 10.1, 9.9];
    const s2 = 0.025;
    const honesty = (u: number) => replicates(results, { u }).honesty!;
    expectNear(honesty(0.16).statistic, (4 * s2) / 0.16 ** 2, 1e-9);
    expectNear(honesty(0.16).low, 0.48441855708793, 1e-9);
    expectNear(honesty(0.16).high, 11.1432867818778, 1e-9);
    expect(honesty(0.16).verdict).toBe("agrees");
    expect(honesty(0.05).verdict).toBe("scatters more than stated");
    expect(honesty(1).verdict).toBe("scatters less than stated");
    expect(honesty(0.05).pValue).toBeLessThan(0.05);
  });

  test("the true scatter lies within the interval told 19 times in 20", () => {
    const random = seeded(12);
    const held = Array.from({ length: 2000 }, () => {
      const results = Array.from({ length: 5 }, () => 50 + 0.6 * normalFrom(random));
      const { ratioLow, ratioHigh } = replicates(results, { u: 0.3 }).honesty!;
      return ratioLow <= 2 && 2 <= ratioHigh ? 1 : 0;
    }).reduce<number>((sum, x) => sum + x, 0);
    expectNear(held / 2000, 0.95, 0, 0.015);
  });

  test("a stated uncertainty with degrees of freedom of its own is compared by F", () => {
    const honesty = replicates([10, 10.2, 9.8, 10.1, 9.9], { u: 0.16, degrees: 7 }).honesty!;
    expect(honesty.test).toBe("F");
    expectNear(honesty.statistic, 0.025 / 0.16 ** 2, 1e-9);
    expectNear(honesty.high, 5.522594, 1e-5);
    expect(honesty.verdict).toBe("agrees");
  });

  test("an honest statement is doubted once in twenty times", () => {
    const random = seeded(11);
    const doubted = Array.from({ length: 2000 }, () => {
      const results = Array.from({ length: 6 }, () => 50 + 0.3 * normalFrom(random));
      return replicates(results, { u: 0.3 }).honesty?.verdict === "agrees" ? 0 : 1;
    }).reduce<number>((sum, x) => sum + x, 0);
    expectNear(doubted / 2000, 0.05, 0, 0.015);
  });

  test("what repeating shows is balance, loss and grains, and not the sieves", () => {
    const sure = passingSure(budgetOf(sand({ chargeG: 301 }), ALL_KNOWN, []), 710);
    const part = repeatablePart(sure);
    const shown = ["readability", "repeatability", "linearity", "drift", "loss", "grains"] as const;
    expectNear(part, Math.hypot(...shown.map((id) => uPart(sure, id))), 1e-12);
    expect(part).toBeLessThan(sure.u / 2);
  });
});

describe("Grubbs' test", () => {
  test("finds the one that does not belong, wherever it stands", () => {
    const found = grubbs([10.1, 10.2, 9.9, 10, 14, 10.1, 9.8])!;
    expect(found).toMatchObject({ at: 4, result: 14, word: "outlier" });
    expect(grubbs([10.1, 10.2, 9.9, 10, 10.3, 10.1, 9.8])?.word).toBe("none");
  });

  test("tells a straggler from an outlier by the 5 % and 1 % points", () => {
    const five = grubbsCritical(5, 0.05);
    const one = grubbsCritical(5, 0.01);
    const found = grubbs([10, 10.1, 9.9, 10, 10.6])!;
    expect(found.statistic).toBeGreaterThan(five);
    expect(found.statistic).toBeLessThan(one);
    expect(found.word).toBe("straggler");
  });

  test("two results, or results without scatter, cannot be tested", () => {
    expect([grubbs([]), grubbs([1, 2]), grubbs([5, 5, 5])]).toEqual([null, null, null]);
    expect(() => grubbsCritical(2, 0.05)).toThrow(RangeError);
  });

  test("good results are called outliers once in a hundred times", () => {
    const random = seeded(5);
    const words = Array.from({ length: 3000 }, () => grubbs(Array.from({ length: 8 }, () => normalFrom(random)))!.word);
    const outliers = words.filter((word) => word === "outlier").length / 3000;
    expectNear(outliers, 0.01, 0, 0.006);
    expectNear(words.filter((word) => word !== "none").length / 3000, 0.05, 0, 0.013);
  });
});

describe("Grubbs' test of a pair", () => {
  const good = [10.1, 10.2, 9.9, 10, 10.1, 9.8, 10.3, 9.9];

  test("finds two that hide each other from the test of one", () => {
    const found = replicates([...good, 12.4, 12.5]);
    expect(found.grubbs?.word).toBe("none");
    expect(found.grubbsPair).toMatchObject({ side: "two largest", at: [8, 9], word: "outlier" });
    expect(replicates([7.4, ...good, 7.5]).grubbsPair).toMatchObject({ side: "two smallest", at: [0, 9] });
    expect(replicates(good).grubbsPair?.word).toBe("none");
  });

  test("its statistic by hand: what is left of the sum of squares", () =>
    // 1 2 3 8 9: mean 4.6, squares 53.2; without 8 and 9: mean 2, squares 2.
    expectNear(grubbsPair([1, 2, 3, 8, 9])!.statistic, 2 / 53.2, 1e-12));

  test("is not asked where one result alone is an outlier", () => {
    const found = replicates([...good, 20]);
    expect(found.grubbs?.word).toBe("outlier");
    expect(found.grubbsPair).toBeNull();
  });

  test("takes 4 to 40 results that differ", () => {
    expect([
      grubbsPair([1, 2, 3]),
      grubbsPair([5, 5, 5, 5]),
      grubbsPair(Array.from({ length: 41 }, (_, i) => i)),
    ]).toEqual([null, null, null]);
    expect(() => grubbsPairCritical(3, 0.05)).toThrow(RangeError);
    expect(() => grubbsPairCritical(41, 0.05)).toThrow(RangeError);
  });

  test.each([5, 8, 15])("%i good results are called a straggling pair once in twenty times", (n) => {
    const random = seeded(n);
    const words = Array.from(
      { length: 4000 },
      () => grubbsPair(Array.from({ length: n }, () => normalFrom(random)))!.word,
    );
    expectNear(words.filter((word) => word !== "none").length / 4000, 0.05, 0, 0.011);
    expectNear(words.filter((word) => word === "outlier").length / 4000, 0.01, 0, 0.005);
  });

  test("the largest residual of three: the distribution that is known in closed form", () => {
    // Three results on a circle of residuals at a random angle; the largest is sqrt(2/3) cos(angle), |angle| at most 60 degrees.
    for (const t of [0.45, 0.6, 0.75, 0.81])
      expectNear(largestResidual(3)(t), 1 - (3 / Math.PI) * Math.acos(t / Math.sqrt(2 / 3)), 1e-4, 1e-4);
    expect(() => largestResidual(1)).toThrow(RangeError);
  });
});

describe("Cochran's test", () => {
  test("finds the group that scatters", () => {
    expect(cochran([0.1, 0.11, 0.9, 0.12], [3, 3, 3, 3])).toMatchObject({ at: 2, word: "outlier" });
    expect(cochran([0.1, 0.11, 0.13, 0.12], [3, 3, 3, 3])?.word).toBe("none");
  });

  test("groups of one do not count; one group or no scatter cannot be tested", () => {
    const found = cochran([0.1, null, 0.2], [3, 1, 3])!;
    expectNear(found.critical5, cochranCritical(2, 3, 0.05), 1e-12);
    expect(cochran([0.1, null], [3, 1])).toBeNull();
    expect(cochran([0, 0], [2, 2])).toBeNull();
    expect(() => cochranCritical(1, 3, 0.05)).toThrow(RangeError);
    expect(() => cochranCritical(3, 1, 0.05)).toThrow(RangeError);
  });

  test("honest groups are called outliers once in a hundred times", () => {
    const random = seeded(6);
    const words = Array.from({ length: 2000 }, () => {
      const sds = Array.from({ length: 5 }, () => summaryOf([0, 0, 0, 0].map(() => normalFrom(random))).sd);
      return cochran(sds, [4, 4, 4, 4, 4])!.word;
    });
    expectNear(words.filter((word) => word === "outlier").length / 2000, 0.01, 0, 0.008);
  });
});

describe("between stations", () => {
  test("by hand: two stations of two, s_r^2 = 1/2 of both, s_L from the means", () => {
    const found = analysed([
      [10, 10.2],
      [11, 11.4],
    ]);
    // s_1^2 = 0.02, s_2^2 = 0.08; means 10.1 and 11.2; s_d^2 = 2 x 0.55^2 x 2 = 1.21.
    expectNear(found.mean, 10.65, 1e-12);
    expectNear(found.sr ** 2, 0.05, 1e-9);
    expectNear(found.sL ** 2, (1.21 - 0.05) / 2, 1e-9);
    expectNear(found.sR ** 2, found.sr ** 2 + found.sL ** 2, 1e-12);
    expectNear(found.R, 2.8 * found.sR, 1e-12);
  });

  test("stations that agree better than chance have no variance between them", () => {
    const found = analysed([
      [9, 11],
      [9.1, 10.9],
    ]);
    expect(found.sL).toBe(0);
    expect(found.sR).toBe(found.sr);
  });

  test("h and k of the serum example (E691, recalled data; figures by numpy)", () => {
    const { stations } = analysed(glucose.results);
    const h = [-0.38770724, -0.12923575, -0.11273757, -0.10173878, -0.09073999, 0.82765873, -1.75155684, 1.74605745];
    const k = [0.20974852, 0.45623236, 0.99772138, 1.70403964, 0.34484871, 1.32438599, 1.17361074, 0.77354863];
    for (const [i, station] of stations.entries()) {
      expectNear(station.h!, h[i]!, 1e-6);
      expectNear(station.k!, k[i]!, 1e-6);
    }
    const words = ["none", "none", "none", "straggler", "none", "none", "none", "none"];
    expect(stations.map((station) => station.kWord)).toEqual(words);
  });

  test("a station that reads high and one that scatters stand out", () => {
    const found = analysed([
      [10, 10.1, 10],
      [10.1, 10, 10.1],
      [10, 9.9, 10.1],
      [12, 12.1, 12],
      [10, 10.1, 9.9],
      [9, 11, 10],
    ]);
    expect(found.stations[3]).toMatchObject({ hWord: "outlier" });
    expect(found.stations[5]).toMatchObject({ kWord: "outlier" });
    expect(found.cochran).toMatchObject({ at: 5, word: "outlier" });
    expect(found.grubbs).toMatchObject({ at: 3 });
  });

  test("unequal numbers and single results are taken as they are", () => {
    const found = analysed([[10, 10.2, 10.1], [10.4], [10.3, 10.5]]);
    expect(found.stations[1]).toMatchObject({ count: 1, sd: null, k: null, kWord: null });
    expectNear(found.sr ** 2, (0.02 + 0.02) / 3, 1e-9);
  });

  test("what cannot be compared is told", () => {
    const reasons = [[[1, 2]], [[1, 2], []], [[1], [2]]].map((groups) => {
      const outcome = betweenStations(groups.map((results, i) => ({ station: `S${i + 1}`, results })));
      return outcome.ok ? "" : outcome.reason;
    });
    expect(reasons).toEqual([
      "results of at least two stations are needed",
      "S2 has no result: leave it out",
      "at least one station must have tested more than once",
    ]);
  });

  test("known spreads are found again", () => {
    const random = seeded(3);
    const groups = Array.from({ length: 400 }, () => {
      const off = 0.5 * normalFrom(random);
      return [0, 0, 0].map(() => 40 + off + 0.2 * normalFrom(random));
    });
    const { sr, sL } = analysed(groups);
    expectNear(sr, 0.2, 0.06);
    expectNear(sL, 0.5, 0.1);
  });

  const results = fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 2, maxLength: 5 });

  test("adding a constant to all results moves the mean and nothing else", () =>
    fc.assert(
      fc.property(fc.array(results, { minLength: 3, maxLength: 6 }), (groups) => {
        const [here, there] = [analysed(groups), analysed(groups.map((group) => group.map((x) => x + 50)))];
        expectNear(there.mean, here.mean + 50, 1e-9);
        expectNear(there.sr, here.sr, 1e-6, 1e-6);
        expectNear(there.sR, here.sR, 1e-6, 1e-6);
      }),
    ));
});

test("Mandel's statistics need stations enough", () => {
  expect(() => mandelH(2, 0.05)).toThrow(RangeError);
  expect(() => mandelK(1, 3, 0.05)).toThrow(RangeError);
  expect(() => mandelK(4, 1, 0.05)).toThrow(RangeError);
});
