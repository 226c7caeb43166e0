import { describe, expect, test } from "vitest";
import { bestModel } from "../../../src/grading/models/bestModel.ts";
import type { ModelFits } from "../../../src/grading/models/fit.ts";
import { fitModels } from "../../../src/grading/models/fitModels.ts";
import { MODEL_IDS, type ModelId } from "../../../src/grading/models/model.ts";
import { expectNear } from "../near.ts";
import { normalRuns } from "../normalScatter.ts";
import { curveAt, determinedFit, gradingOf, passingOf, TWELVE_SIEVES } from "./gradings.ts";

const fitsOf = (passingPct: readonly number[], fit: "least-squares" | "line" = "least-squares") =>
  fitModels(gradingOf(TWELVE_SIEVES.slice(0, passingPct.length), passingPct), { fit });

const sand = fitsOf([100, 99.2, 97.1, 92.8, 84, 72.5, 57.3, 40.9, 25.2, 13.1, 6, 1.2]);

/** The same fits with other misfits, everything else kept. */
const withRms = (rms: Readonly<Record<string, number>>, pointsUsed = 11): ModelFits =>
  Object.fromEntries(
    MODEL_IDS.map((id) => [id, { ...determinedFit(sand[id]), rmsPct: rms[id]!, pointsUsed }]),
  ) as unknown as ModelFits;

test.each(MODEL_IDS)("data made from %s are told as such", (id) => {
  const best = bestModel(fitsOf(curveAt(id, 900, 1.3, TWELVE_SIEVES)));
  expect(best.decided && best.model).toBe(id);
});

describe("the lead", () => {
  test("is the difference in AICc, which for the same points and parameters is 2 N ln of the ratio of misfits", () => {
    const best = bestModel(withRms({ rosinRammler: 1, gatesGaudinSchuhmann: 5, logNormal: 2 }));
    const aicc = (rms: number, n = 11, k = 3) => n * Math.log(rms ** 2) + 2 * k + (2 * k * (k + 1)) / (n - k - 1);
    if (!best.decided) throw new Error(best.reason);
    expectNear(best.lead, aicc(2) - aicc(1), 1e-12);
    expect(best.reason).toBe("Rosin-Rammler fits best, clearly closer than log-normal");
  });

  test("decides from 4 on and not below", () => {
    const ratio = Math.exp(4 / 22);
    const over = bestModel(withRms({ rosinRammler: ratio + 1e-9, gatesGaudinSchuhmann: 5, logNormal: 1 }));
    const under = bestModel(withRms({ rosinRammler: ratio - 1e-9, gatesGaudinSchuhmann: 5, logNormal: 1 }));
    expect(over.decided && over.model).toBe("logNormal");
    expect(under).toEqual({ decided: false, reason: "these sieves do not tell log-normal and Rosin-Rammler apart" });
  });

  test("does not come from misfits that no balance resolves", () =>
    expect(bestModel(withRms({ rosinRammler: 1e-12, gatesGaudinSchuhmann: 5, logNormal: 0.009 })).decided).toBe(false));
});

describe("stays undecided, with a reason,", () => {
  test("with fewer than five sieves", () => {
    const four = bestModel(withRms({ rosinRammler: 1, gatesGaudinSchuhmann: 50, logNormal: 20 }, 4));
    expect(four).toEqual({ decided: false, reason: "4 sieves are too few to tell the models apart; 5 are needed" });
    expect(bestModel(withRms({ rosinRammler: 1, gatesGaudinSchuhmann: 50, logNormal: 20 }, 5)).decided).toBe(true);
  });

  test("with fewer than two fits", () => {
    const reason = "fewer than two models could be fitted, so there is nothing to compare";
    expect(bestModel(fitsOf([100, 50, 0]))).toEqual({ decided: false, reason });
    const none = { determinable: false, reason: "no fit" } as const;
    expect(bestModel({ ...sand, rosinRammler: none, logNormal: none })).toEqual({ decided: false, reason });
    expect(bestModel({ ...sand, gatesGaudinSchuhmann: none }).reason).not.toBe(reason);
  });

  test("for straight lines, each best on another grid", () => {
    const lines = fitsOf(curveAt("rosinRammler", 900, 1.3, TWELVE_SIEVES), "line");
    expect(bestModel(lines)).toEqual({
      decided: false,
      reason: "lines are fitted each on its own grid and cannot be compared",
    });
  });
});

/** Which model wins over 300 tests of a product whose fractions scatter by so many % points (the fractions, not the sums). */
function winnersOf(id: ModelId, scatterPct: number) {
  const clean = curveAt(id, 900, 1.3, TWELVE_SIEVES);
  const winners = normalRuns(300, 12, 20261124).map((scatter) => {
    const shares = clean.map((pct, i) => Math.max(0, (clean[i - 1] ?? 100) - pct + scatterPct * scatter[i]!));
    const best = bestModel(fitsOf(passingOf([...shares, clean.at(-1)!])));
    return best.decided ? best.model : "undecided";
  });
  return (name: string) => winners.filter((winner) => winner === name).length / winners.length;
}

describe.each(["rosinRammler", "logNormal"] as const)("three hundred tests of a product that is %s", (id) => {
  const other = id === "logNormal" ? "rosinRammler" : "logNormal";

  test("with fractions sure to 0.3 % name it nearly always, another one in less than 2 %", () => {
    const share = winnersOf(id, 0.3);
    expect(share(id)).toBeGreaterThan(0.9);
    expect(share(other) + share("gatesGaudinSchuhmann")).toBeLessThan(0.02);
  });

  test("with fractions that scatter by 2 % still name another one in less than 8 %", () => {
    const share = winnersOf(id, 2);
    expect(share(other) + share("gatesGaudinSchuhmann")).toBeLessThan(0.08);
    expect(share("undecided")).toBeGreaterThan(0.01);
  });
});
