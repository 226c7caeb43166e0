import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dryMassG, isConstantMass, moisturePct } from "../../../src/procedure/wash/moisture.ts";
import { finesPct, washLossPct } from "../../../src/procedure/wash/wash.ts";
import type { Determination } from "../../../src/record/determination.ts";

const numberOf = (found: Determination): number => (found.determinable ? found.value : Number.NaN);
const reasonOf = (found: Determination): string => (found.determinable ? `${found.value}` : found.reason);

const anyWashed = fc
  .record({
    beforeG: fc.double({ min: 1, max: 20_000, noNaN: true }),
    kept: fc.double({ min: 0.5, max: 1, noNaN: true }),
    panShare: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .map(({ beforeG, kept, panShare }) => ({ beforeG, afterG: beforeG * kept, panG: beforeG * kept * panShare }));

describe("the wash loss", () => {
  test.each([
    [500, 480, 4],
    [500, 500, 0],
    [312.4, 301.7, 3.4251],
    [1000, 0, 100],
  ])("of %d g that become %d g is %d %%", (beforeG, afterG, pct) =>
    expect(numberOf(washLossPct(beforeG, afterG))).toBeCloseTo(pct, 3),
  );

  test("can't be told for a sample that gained, or that was not weighed", () => {
    expect(reasonOf(washLossPct(500, 500.1))).toBe(
      "the sample is heavier after washing than before: dry and weigh again",
    );
    expect(reasonOf(washLossPct(0, 0))).toBe("the dry mass before washing is not given");
    expect(reasonOf(washLossPct(Number.NaN, 400))).toBe("the dry mass before washing is not given");
  });
});

describe("the fines of a washed test", () => {
  test("are the wash loss and the pan together", () => {
    // 500 g washed to 480 g, 3.5 g in the pan: 4 % + 0.7 %.
    expect(numberOf(finesPct(500, 480, 3.5))).toBeCloseTo(4.7, 12);
  });

  test("are the same by both ways of writing: A + 100 P/B and 100 ((M1 - M2) + P)/M1", () =>
    fc.assert(
      fc.property(anyWashed, ({ beforeG, afterG, panG }) => {
        const american = (100 * (beforeG - afterG)) / beforeG + (100 * panG) / beforeG;
        const european = (100 * (beforeG - afterG + panG)) / beforeG;
        expect(numberOf(finesPct(beforeG, afterG, panG))).toBeCloseTo(american, 9);
        expect(numberOf(finesPct(beforeG, afterG, panG))).toBeCloseTo(european, 9);
      }),
    ));

  test("lie between the wash loss and everything", () =>
    fc.assert(
      fc.property(anyWashed, ({ beforeG, afterG, panG }) => {
        const fines = numberOf(finesPct(beforeG, afterG, panG));
        expect(fines).toBeGreaterThanOrEqual(numberOf(washLossPct(beforeG, afterG)) - 1e-9);
        expect(fines).toBeLessThanOrEqual(100 + 1e-9);
      }),
    ));

  test("can't be told for a pan heavier than what was left, nor without a wash loss", () => {
    expect(reasonOf(finesPct(500, 480, 481))).toBe("the pan holds more than was left after washing: weigh it again");
    expect(reasonOf(finesPct(500, 501, 3))).toContain("heavier after washing");
  });
});

describe("moisture", () => {
  test.each([
    [525, 500, 0, 5],
    [500, 500, 0, 0],
    [162.4, 158.2, 38.2, 3.5],
    [30, 10, 0, 200],
  ])("of %d g that dry to %d g in a vessel of %d g is %d %% of the dry mass", (moistG, dryG, vesselG, pct) =>
    expect(numberOf(moisturePct(moistG, dryG, vesselG))).toBeCloseTo(pct, 9),
  );

  test("can't be told for a portion that gained, or of which nothing is left", () => {
    expect(reasonOf(moisturePct(500, 500.2))).toBe("the portion is heavier dry than moist: weigh it again");
    expect(reasonOf(moisturePct(50, 38.2, 38.2))).toBe("nothing dry is left in the vessel: weigh it again");
  });

  test("and dry mass lead back to each other", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 5000, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        (dryG, pct) => {
          const moistG = dryG * (1 + pct / 100);
          expect(numberOf(moisturePct(moistG, dryG))).toBeCloseTo(pct, 6);
          expect(dryMassG(moistG, pct)).toBeCloseTo(dryG, 8);
        },
      ),
    ));
});

describe("constant mass, 0.1 % over at least 1 h (EN 933-1, memory)", () => {
  test.each([
    [1000, 999, 1, true],
    [1000, 998.9, 1, false],
    [1000, 1000.9, 2, true],
    [1000, 999.5, 0.9, false],
    [1000, 1000, Number.NaN, true],
  ])("%d g, then %d g after %d h: %s", (firstG, secondG, hours, constant) =>
    expect(isConstantMass(firstG, secondG, hours)).toBe(constant),
  );
});
