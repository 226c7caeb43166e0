import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { recoveries, recoveriesOfProducts } from "../../../src/grading/deck/recoveries.ts";
import { expectNear } from "../near.ts";
import { numberOf, reasonOf } from "../stack.ts";

const figures = (found: ReturnType<typeof recoveries>) =>
  [found.oversizeRecovery, found.undersizeRecovery, found.overallEffectiveness].map(numberOf);

const inside = fc.double({ min: 0.01, max: 0.99, noNaN: true });
const percent = fc.double({ min: 0.1, max: 99.9, noNaN: true });

test("worked by hand: 40 t over of 100 t with 36 t of the 42 t coarse: 36/42 over, 54/58 through", () => {
  const [over, under, overall] = figures(recoveries(0.4, { feed: 42, oversize: 90, undersize: 10 }));
  expectNear(over!, 36 / 42, 1e-14);
  expectNear(under!, 54 / 58, 1e-14);
  expectNear(overall!, (36 / 42) * (54 / 58), 1e-14);
});

test("a perfect screen recovers everything", () =>
  expect(figures(recoveries(0.3, { feed: 30, oversize: 100, undersize: 0 }))).toEqual([1, 1, 1]));

test("a splitter that does not look at size recovers its share of each", () =>
  fc.assert(
    fc.property(inside, percent, (share, coarse) => {
      const [over, under] = figures(recoveries(share, { feed: coarse, oversize: coarse, undersize: coarse }));
      expectNear(over!, share, 1e-12);
      expectNear(under!, 1 - share, 1e-12);
    }),
  ));

test("where the streams balance, McCabe's closed formula gives the same effectiveness", () =>
  fc.assert(
    fc.property(
      inside,
      fc.double({ min: 55, max: 99, noNaN: true }),
      fc.double({ min: 1, max: 45, noNaN: true }),
      (share, over, under) => {
        const feed = share * over + (1 - share) * under;
        const [xF, xD, xB] = [feed / 100, over / 100, under / 100];
        const closed = ((xF - xB) * (xD - xF) * xD * (1 - xB)) / ((xD - xB) ** 2 * (1 - xF) * xF);
        const found = recoveries(share, { feed, oversize: over, undersize: under });
        expectNear(numberOf(found.overallEffectiveness), closed, 1e-9);
        expectNear(
          numberOf(recoveriesOfProducts(share, { feed: 0, oversize: over, undersize: under }).overallEffectiveness),
          closed,
          1e-9,
        );
      },
    ),
  ));

test("with the feed that the products add up to, recoveries lie in 0..1 whatever the streams", () =>
  fc.assert(
    fc.property(inside, percent, percent, percent, (share, feed, oversize, undersize) => {
      for (const figure of figures(recoveriesOfProducts(share, { feed, oversize, undersize }))) {
        expect(figure).toBeGreaterThanOrEqual(0);
        expect(figure).toBeLessThanOrEqual(1);
      }
    }),
  ));

describe("refuses in words", () => {
  test("an aperture with nothing of the feed on one side", () => {
    const allFine = recoveries(0.4, { feed: 0, oversize: 0, undersize: 0 });
    expect(reasonOf(allFine.oversizeRecovery)).toBe("the feed has no oversize at this aperture");
    expect(reasonOf(allFine.overallEffectiveness)).toBe("the feed has no oversize at this aperture");
    expect(numberOf(allFine.undersizeRecovery)).toBeCloseTo(0.6, 12);
    const allCoarse = recoveries(0.4, { feed: 100, oversize: 100, undersize: 100 });
    expect(reasonOf(allCoarse.undersizeRecovery)).toBe("the feed has no undersize at this aperture");
    expect(reasonOf(allCoarse.overallEffectiveness)).toBe("the feed has no undersize at this aperture");
  });

  test("a recovery of more than there is, with the figure", () => {
    const found = recoveries(0.5, { feed: 40, oversize: 90, undersize: 5 });
    expect(reasonOf(found.oversizeRecovery)).toBe(
      "the oversize would hold 112.5 % of what the feed has of it: feed and products do not balance here",
    );
    expect(numberOf(found.undersizeRecovery)).toBeCloseTo(0.475 / 0.6, 12);
  });

  test("but not one that is above 1 by rounding alone", () =>
    expect(numberOf(recoveries(0.1 + 0.2, { feed: 30, oversize: 100, undersize: 0 }).oversizeRecovery)).toBe(1));
});
