import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalCdf, normalQuantile } from "../../../src/grading/normal.ts";
import { passingAt } from "../../../src/grading/passingAt.ts";
import { percentileUm } from "../../../src/grading/percentile.ts";
import type { Interpolation } from "../../../src/record/product.ts";
import reference from "../../published/reference/fixtures/readings.json" with { type: "json" };
import { expectNear } from "../near.ts";
import { numberOf, passing } from "../stack.ts";

describe.each(reference.cases)(
  "as numpy's interp reads it: $interpolation through $apertureUm.length sieves",
  (curve) => {
    const interpolation = curve.interpolation as Interpolation;
    const grading = passing(
      curve.apertureUm
        .map((um, i) => `${um}:${curve.passingPct[i]}`)
        .toReversed()
        .join(" "),
    );

    test("passing % between the sieves", () => {
      curve.atUm.forEach((um, i) => {
        expectNear(numberOf(passingAt(grading, um, interpolation)), curve.passingAtPct[i] ?? Number.NaN, 1e-9, 1e-9);
      });
    });

    test("percentiles", () => {
      curve.percentilePct.forEach((pct, i) => {
        expectNear(numberOf(percentileUm(grading, pct, interpolation)), curve.percentileUm[i] ?? Number.NaN, 1e-9);
      });
    });
  },
);

describe("each rule is exact for the curve that it assumes", () => {
  const sieves = [2000, 1250, 800, 400, 300, 150, 100];
  const through = (passingPctAt: (um: number) => number) =>
    passing(sieves.map((um) => `${um}:${passingPctAt(um)}`).join(" "));
  const inside = fc.double({ min: 101, max: 1999, noNaN: true });

  const holds = (interpolation: Interpolation, passingPctAt: (um: number) => number) =>
    fc.assert(
      fc.property(inside, (um) => {
        const grading = through(passingPctAt);
        expectNear(numberOf(passingAt(grading, um, interpolation)), passingPctAt(um), 1e-9, 1e-9);
        expectNear(numberOf(percentileUm(grading, passingPctAt(um), interpolation)), um, 1e-8);
      }),
    );

  test("linear: mass spread evenly over the sizes", () => holds("linear", (um) => um / 25));

  test("log-linear: mass spread evenly over the ratios", () => {
    holds("log-linear", (um) => 5 + (90 * Math.log(um / 100)) / Math.log(20));
  });

  test("log-probability: a log-normal of any median and spread", () => {
    for (const [median, ratio] of [
      [420, 1.6],
      [700, 2.5],
      [250, 4],
    ] as const) {
      holds("log-probability", (um) => 100 * normalCdf(Math.log(um / median) / Math.log(ratio)));
    }
  });

  test("log-probability gives the median of a log-normal whatever the sieves beside it", () => {
    const grading = passing(`900:${100 * normalCdf(2)} 300:${100 * normalCdf(-1.5)}`);
    const share = -normalQuantile(numberOf(passingAt(grading, 300, "linear")) / 100) / 3.5;
    expectNear(numberOf(percentileUm(grading, 50, "log-probability")), 300 * 3 ** share, 1e-12);
  });

  test("the other rules differ there by a percent or more, so the choice is told", () => {
    const grading = through((um) => 100 * normalCdf(Math.log(um / 420) / Math.log(1.6)));
    const [linear, probability] = (["linear", "log-probability"] as const).map((interpolation) =>
      numberOf(percentileUm(grading, 60, interpolation)),
    );
    expect(Math.abs((linear ?? 0) / (probability ?? 1) - 1)).toBeGreaterThan(0.01);
  });
});
