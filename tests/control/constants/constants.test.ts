import { describe, expect, test } from "vitest";
import { chartConstants } from "../../../src/control/constants/chartConstants.ts";
import { logGamma } from "../../../src/control/constants/logGamma.ts";
import { rangeMoments } from "../../../src/control/constants/rangeMoments.ts";
import { expectNear } from "../../grading/near.ts";
import { normalRuns } from "../../grading/normalScatter.ts";
import reference from "../../published/reference/fixtures/control.json" with { type: "json" };

describe("logarithm of the gamma function", () => {
  const { x, logGamma: expected } = reference.logGamma;

  test.each(x.map((at, i) => ({ at, expected: expected[i] ?? Number.NaN })))("at $at as scipy has it", (one) => {
    expectNear(logGamma(one.at), one.expected, 1e-13, 1e-13);
  });

  test.each([0.1, 0.7, 1, 3.25, 40])("grows by ln x from x to x + 1, at %d", (at) => {
    expectNear(logGamma(at + 1) - logGamma(at), Math.log(at), 1e-12, 1e-13);
  });

  test.each([0, -1, Number.NaN])("of %d is the caller's fault", (at) => {
    expect(() => logGamma(at)).toThrow(RangeError);
  });
});

describe("moments of the range of n normal values", () => {
  test.each(reference.rangeMoments)("d2 and d3 for $n as integrated with numpy", ({ n, d2, d3 }) => {
    const ours = rangeMoments(n);
    expectNear(ours.d2, d2, 1e-8);
    expectNear(ours.d3, d3, 5e-8);
  });

  test("of two values are 2/sqrt(pi) and sqrt(2 - 4/pi)", () => {
    const { d2, d3 } = rangeMoments(2);
    expectNear(d2, 2 / Math.sqrt(Math.PI), 5e-9);
    expectNear(d3, Math.sqrt(2 - 4 / Math.PI), 5e-9);
  });

  test("of three values: d2 is 3/sqrt(pi)", () => expectNear(rangeMoments(3).d2, 3 / Math.sqrt(Math.PI), 1e-9));

  test("are what drawn samples of four show", () => {
    const ranges = normalRuns(20_000, 4, 31).map((run) => Math.max(...run) - Math.min(...run));
    const mean = ranges.reduce((sum, range) => sum + range, 0) / ranges.length;
    const { d2, d3 } = rangeMoments(4);
    expectNear(mean, d2, 0, (4 * d3) / Math.sqrt(ranges.length));
  });
});

describe("chart constants", () => {
  const sizes = Array.from({ length: 24 }, (_, i) => i + 2);

  test.each(sizes)("for samples of %d hang together", (n) => {
    const { d2, d3, c4, c5, A2, A3, B3, B4, D3, D4 } = chartConstants(n);
    expectNear(A2 * d2, A3 * c4, 1e-14);
    expectNear(c4 ** 2 + c5 ** 2, 1, 1e-14);
    expectNear(D4 - 1, (3 * d3) / d2, 1e-14);
    expectNear(B4 - 1, (3 * c5) / c4, 1e-14);
    expectNear(D3, Math.max(0, 2 - D4), 1e-14);
    expectNear(B3, Math.max(0, 2 - B4), 1e-14);
  });

  test("a lower limit of the range comes with samples of seven, of the deviation with six", () => {
    expect(sizes.filter((n) => chartConstants(n).D3 > 0)[0]).toBe(7);
    expect(sizes.filter((n) => chartConstants(n).B3 > 0)[0]).toBe(6);
  });

  test("the range of two says what their deviation says", () => {
    const { d2, d3, c4, c5, D4, B4 } = chartConstants(2);
    expectNear(d2, c4 * Math.SQRT2, 1e-8);
    expectNear(d3, c5 * Math.SQRT2, 1e-8);
    expectNear(D4, B4, 1e-8);
  });

  test("c4 comes near 1 - 1/(4n - 4) for large samples", () => {
    expectNear(chartConstants(25).c4, 1 - 1 / 96, 1e-4);
  });

  test.each([1, 0, 2.5, 26, Number.NaN])("for samples of %d are the caller's fault", (n) => {
    expect(() => chartConstants(n)).toThrow(RangeError);
  });
});
