import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { netMassG, netOfWeighingG, sumG } from "../../src/grading/netMass.ts";
import { expectNear } from "./near.ts";

const hundredths = fc.integer({ min: 0, max: 1e9 });

describe("netMassG", () => {
  test.each([
    [418.02, 412.31, 5.71],
    [455.2, 398.74, 56.46],
    [5.27, 2.32, 2.95],
    [0.3, 0.1, 0.2],
    [100000.01, 100000, 0.01],
    [412.31, 412.31, 0],
    [412.3, 412.31, -0.01],
    [7, 0, 7],
    [0, 0, 0],
  ])("%d full, %d empty is %d net", (fullG, emptyG, netG) => {
    expect(netMassG(fullG, emptyG)).toBe(netG);
  });

  test("of readings to 0.01 g is the decimal difference exactly", () => {
    fc.assert(
      fc.property(hundredths, hundredths, (a, b) => {
        expect(netMassG(a / 100, b / 100)).toBe((a - b) / 100);
      }),
    );
  });

  test("is the same in mg, g and kg", () => {
    fc.assert(
      fc.property(hundredths, hundredths, fc.constantFrom(1e-3, 1e3), (a, b, unit) => {
        const scaled = netMassG((a / 100) * unit, (b / 100) * unit);
        expectNear(scaled, ((a - b) / 100) * unit, 1e-15, 1e-11 * Math.max(a, b) * 0.01 * unit);
      }),
    );
  });

  test("has no negative zero", () => expect(Object.is(netMassG(1, 1.0000000000001), 0)).toBe(true));
});

describe("sumG", () => {
  test.each([
    [[], 0],
    [[0.1, 0.2, 0.3], 0.6],
    [[2.95, 4.95, 13.36, 9.55, 2.13, 0.46, 0.02], 33.42],
    [[1e5, 0.01, 0.01], 100000.02],
    [[0, 0], 0],
    [[5.71, -0.01], 5.7],
  ])("%j adds to %d", (massesG, sum) => {
    expect(sumG(massesG)).toBe(sum);
  });

  test("of up to 65 readings to 0.01 g is the decimal sum exactly", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 1e7 }), { maxLength: 65 }), (readings) => {
        expect(sumG(readings.map((n) => n / 100))).toBe(readings.reduce((sum, n) => sum + n, 0) / 100);
      }),
    );
  });

  test("does not depend on the order", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1e5, noNaN: true }), { maxLength: 65 }), (massesG) => {
        expectNear(sumG(massesG.toReversed()), sumG(massesG), 1e-12);
        expectNear(sumG(massesG.toSorted((a, b) => a - b)), sumG(massesG), 1e-12);
      }),
    );
  });

  test("loses no small mass beside large ones that cancel", () => expect(sumG([1e16, 1, -1e16])).toBe(1));
});

describe("netOfWeighingG", () => {
  test.each([
    [412.31, 418.02, undefined, 5.71],
    [412.31, 418.02, [], 5.71],
    [400, 410.1, [420.2], 30.3],
    [400, 410.1, [420.2, 400], 30.3],
    [400, 399.99, undefined, -0.01],
    [0, 5, undefined, 5],
  ])("of %d g empty, %d g full and %j before is %d g", (emptyG, fullG, earlierFullG, netG) => {
    expect(netOfWeighingG({ emptyG, fullG, earlierFullG })).toBe(netG);
  });

  test("is null while a weighing is missing, whatever earlier portions held", () => {
    expect(netOfWeighingG({ emptyG: null, fullG: 410 })).toBeNull();
    expect(netOfWeighingG({ emptyG: 400, fullG: null })).toBeNull();
    expect(netOfWeighingG({ emptyG: 400, fullG: null, earlierFullG: [420] })).toBeNull();
    expect(netOfWeighingG({ emptyG: null, fullG: null, earlierFullG: [420] })).toBeNull();
  });

  test("is the sum of the portions' own net masses, in whatever order they came", () => {
    const reading = fc.integer({ min: 0, max: 1e6 });
    fc.assert(
      fc.property(reading, fc.array(reading, { minLength: 1, maxLength: 20 }), (empty, fulls) => {
        const masses = fulls.map((full) => full / 100);
        const [fullG = 0, ...earlierFullG] = masses;
        const [first = 0, ...rest] = masses.toReversed();
        const net = netOfWeighingG({ emptyG: empty / 100, fullG, earlierFullG });
        expect(net).toBe(fulls.reduce((sum, full) => sum + full - empty, 0) / 100);
        expect(netOfWeighingG({ emptyG: empty / 100, fullG: first, earlierFullG: rest })).toBe(net);
        if (fulls.length === 1) expect(net).toBe(netMassG(fullG, empty / 100));
      }),
    );
  });
});
