import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Graded, isWashed, massCount, massesOf, regraded } from "../../src/uncertainty/graded.ts";
import { type Measurand, measurandName, measured } from "../../src/uncertainty/measurand.ts";
import { combined, slopeOf } from "../../src/uncertainty/propagation.ts";
import { passingSensitivity, sensitivities } from "../../src/uncertainty/sensitivity.ts";
import { expectNear } from "../grading/near.ts";
import { choices, gradedOf, numberOf, reasonOf, risingFractions } from "../grading/stack.ts";
import { sand, testOf } from "./situations.ts";

const numeric = (graded: Graded, on: Measurand, at: number, stepG: number): number => {
  const numberAt = (by: number) => {
    const masses = massesOf(graded);
    masses[at] = masses[at]! + by;
    const outcome = regraded(graded, masses);
    if (!outcome.ok) throw new Error(outcome.reason);
    return numberOf(measured(on, outcome.value, graded));
  };
  return (numberAt(stepG) - numberAt(-stepG)) / (2 * stepG);
};

const check = (graded: Graded): void => {
  for (const [row, { apertureUm }] of graded.grading.rows.slice(0, -1).entries()) {
    const perG = passingSensitivity(graded, row);
    for (const [at, massG] of massesOf(graded).entries()) {
      if (massG < 0.1) continue;
      expectNear(perG[at]!, numeric(graded, { kind: "passingPct", apertureUm }, at, 1e-3), 1e-5, 1e-6);
    }
  }
};

describe("passing % in closed form is what differences of the grading give", () => {
  test("of the recovered total, whatever the stack", () =>
    fc.assert(
      fc.property(risingFractions, (fractions) => check({ grading: gradedOf(fractions), choices: choices() })),
      { numRuns: 25 },
    ));

  test("of the charge", () => check(sand({ chargeG: 305, basis: "charge" })));
  test("of a washed test, recovered", () => check(sand({ chargeG: 330, washedG: 301 })));
  test("of a washed test, of the charge", () => check(sand({ chargeG: 330, washedG: 301, basis: "charge" })));
});

describe("shares of the same sieve", () => {
  const graded = sand();
  const uG = new Float64Array(massCount(graded)).fill(0.01);
  const asked = (kind: "passingPct" | "coarserPct" | "retainedPct", apertureUm: number) =>
    sensitivities(graded, uG, [{ kind, apertureUm }])[0]!.perG;

  test("coarser % is passing % with the sign turned", () => {
    const [coarser, passing] = [asked("coarserPct", 500), asked("passingPct", 500)];
    for (const [j, c] of coarser.entries()) expect(c).toBe(-passing[j]!);
  });

  test("retained % is the difference of two passing %, of the coarsest sieve what is coarser", () => {
    const [own, above, retained] = [asked("passingPct", 500), asked("passingPct", 710), asked("retainedPct", 500)];
    for (const [j, c] of retained.entries()) expectNear(c, above[j]! - own[j]!, 1e-12, 1e-15);
    expect([...asked("retainedPct", 2000)]).toEqual([...asked("coarserPct", 2000)]);
  });

  test("retained % has the closed form of a ratio: u^2 = [(1 - p)^2 u_i^2 + p^2 sum of others]/M^2", () => {
    const perG = asked("retainedPct", 500);
    const p = 82 / 300;
    expectNear(perG[4]!, (100 * (1 - p)) / 300, 1e-12);
    expectNear(perG[0]!, (-100 * p) / 300, 1e-12);
  });
});

describe("values by differences", () => {
  const graded = sand();
  const uG = new Float64Array(massCount(graded)).fill(0.001);
  uG[massCount(graded) - 1] = 0;
  uG[massCount(graded) - 2] = 0;

  test("a percentile has u(ln D) = u(P) / slope of its step (formulas M)", () => {
    const [d50] = sensitivities(graded, uG, [{ kind: "percentileUm", passingPct: 50 }]);
    // 50 % lies between 500 um (39 %) and 710 um (66.33 %).
    const size = numberOf(d50!.found);
    expect(size).toBeGreaterThan(500);
    const causes = [...uG.keys()].map((at) => ({ byMassG: new Float64Array(uG.length).fill(0.01, at, at + 1) }));
    const uSize = combined(causes.slice(0, 9), d50!.perG);
    const between = graded.grading.rows.filter((row) => [500, 710].includes(row.apertureUm));
    const step = (between[0]!.passingPct - between[1]!.passingPct) / Math.log(710 / 500);
    const share = Math.log(size / 500) / Math.log(710 / 500);
    const [pFine, pCoarse] = [passingSensitivity(graded, 4), passingSensitivity(graded, 3)];
    const perG = pFine.map((c, j) => (1 - share) * c + share * pCoarse[j]!);
    expectNear(uSize / size, combined(causes.slice(0, 9), perG) / step, 1e-4);
  });

  test("masses that do not vary are left out", () => {
    const some = uG.map((u, at) => (at === 3 ? u : 0));
    const [d50] = sensitivities(graded, some, [{ kind: "percentileUm", passingPct: 50 }]);
    expect([...d50!.perG].map((c, at) => (c === 0 ? -1 : at)).filter((at) => at >= 0)).toEqual([3]);
  });

  test("an empty row is differenced to one side: it cannot hold less than nothing", () => {
    const empty = testOf("2000:0 1000:50 500:30 pan:20");
    const [mean] = sensitivities(empty, new Float64Array(massCount(empty)).fill(0.001), [
      { kind: "value", id: "massMeanDiameterUm" },
    ]);
    // A gram on the empty 2 mm sieve is a class of 2 to 2.8 mm.
    const now = numberOf(mean!.found);
    expectNear(mean!.perG[0]!, (2400 - now) / 100, 0.01);
  });

  test("what is not determined has no sensitivity and keeps its reason", () => {
    const [d1] = sensitivities(graded, uG, [{ kind: "percentileUm", passingPct: 0.1 }]);
    expect(reasonOf(d1!.found)).toMatch(/below 125 um/);
    expect(d1!.perG.every((c) => c === 0)).toBe(true);
  });
});

describe("numbers of a test", () => {
  const graded = sand();
  const found = (on: Measurand, some: Partial<Graded> = {}) => measured(on, graded.grading, { ...graded, ...some });

  test("have the names that limits have", () => {
    expect(measurandName({ kind: "passingPct", apertureUm: 500 })).toBe("passingPct@500");
    expect(measurandName({ kind: "percentileUm", passingPct: 50 })).toBe("percentileUm@50");
    expect(measurandName({ kind: "value", id: "finenessModulus" })).toBe("finenessModulus");
  });

  test("at a sieve that the stack lacks are read from the curve only where that is allowed", () => {
    const on = { kind: "passingPct", apertureUm: 600 } as const;
    expect(reasonOf(found(on))).toMatch(/no 600 um sieve/);
    const passing = numberOf(found(on, { interpolateMissing: true }));
    expectNear(
      numberOf(found({ kind: "coarserPct", apertureUm: 600 }, { interpolateMissing: true })),
      100 - passing,
      1e-12,
    );
    expect(reasonOf(found({ kind: "retainedPct", apertureUm: 600 }, { interpolateMissing: true }))).toMatch(/unknown/);
    expect(reasonOf(found({ kind: "coarserPct", apertureUm: 9000 }, { interpolateMissing: true }))).toMatch(/above/);
  });

  test("a test is washed only if something was washed out", () => {
    expect(isWashed(sand({ chargeG: 330, washedG: 301 }))).toBe(true);
    expect(isWashed(sand({ chargeG: 301 }))).toBe(false);
    expect(isWashed(sand())).toBe(false);
  });

  test("masses that cannot be graded are told as such", () => {
    const none = new Float64Array(massCount(graded));
    expect(regraded(graded, none).ok).toBe(false);
  });
});

describe("the law of propagation", () => {
  test("one side stands for both, none for 0", () => {
    expect(slopeOf(1, 2, 5, 1)).toBe(2);
    expect(slopeOf(null, 2, 5, 1)).toBe(3);
    expect(slopeOf(1, 2, null, 0.5)).toBe(2);
    expect(slopeOf(null, 2, null, 1)).toBe(0);
  });

  test("independent causes add in squares, one cause on two inputs adds before it is squared", () => {
    const [a, b, both] = [
      [3, 0],
      [0, 4],
      [3, 4],
    ].map((byMassG) => ({ byMassG: Float64Array.from(byMassG) }));
    const one = Float64Array.of(1, 1);
    expect(combined([a!, b!], one)).toBe(5);
    expect(combined([both!], one)).toBe(7);
    expect(combined([both!], Float64Array.of(4, -3))).toBe(0);
  });
});
