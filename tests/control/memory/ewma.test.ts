import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ewmaOf, USUAL_EWMA } from "../../../src/control/memory/ewma.ts";
import { runSignals } from "../../../src/control/rules/signals.ts";
import { expectNear } from "../../grading/near.ts";
import { normalRuns } from "../../grading/normalScatter.ts";

const process = { centre: 700, sigma: 12 };
const values = fc.array(fc.double({ min: 600, max: 800, noNaN: true }), { minLength: 1, maxLength: 50 });
const lambdas = fc.double({ min: 0.01, max: 1, noNaN: true });

describe("with lambda 1 the weighted average is the chart of individuals", () => {
  const choice = { lambda: 1, widthSigmas: 3 } as const;

  test.each(["start-up", "steady"] as const)("%s limits", (limits) => {
    fc.assert(
      fc.property(values, (some) => {
        const points = ewmaOf(some, process, { ...choice, limits });
        for (const [i, point] of points.entries()) {
          expectNear(point.ewma, some[i] ?? Number.NaN, 1e-15);
          expect(point.lower).toBe(700 - 36);
          expect(point.upper).toBe(700 + 36);
        }
        const beyond = points.flatMap(({ side }, i) => (side ? [`${i} ${side}`] : []));
        const rule = runSignals(some, process, ["1-beyond-3-sigma"]);
        expect(beyond).toEqual(rule.map(({ index, side }) => `${index} ${side}`));
      }),
    );
  });
});

test("the average is the weighted sum of all values so far and the centre", () => {
  fc.assert(
    fc.property(values, lambdas, (some, lambda) => {
      const last = ewmaOf(some, process, { ...USUAL_EWMA, lambda }).at(-1);
      const n = some.length;
      const sum = some.reduce((total, value, i) => total + lambda * (1 - lambda) ** (n - 1 - i) * value, 0);
      expectNear(last?.ewma ?? Number.NaN, sum + (1 - lambda) ** n * 700, 1e-12);
    }),
  );
});

test("the average stays between the least and the greatest of the values and the centre", () => {
  fc.assert(
    fc.property(values, lambdas, (some, lambda) => {
      for (const { ewma } of ewmaOf(some, process, { ...USUAL_EWMA, lambda })) {
        expect(ewma).toBeGreaterThanOrEqual(Math.min(700, ...some) - 1e-9);
        expect(ewma).toBeLessThanOrEqual(Math.max(700, ...some) + 1e-9);
      }
    }),
  );
});

describe("limits", () => {
  const many = Array.from({ length: 300 }, () => 700);
  const halves = (limits: "start-up" | "steady") =>
    ewmaOf(many, process, { lambda: 0.1, widthSigmas: 2.7, limits }).map(({ upper, lower }) => (upper - lower) / 2);

  test("of the first value are lambda times those of a single one", () => {
    expectNear(halves("start-up")[0] ?? Number.NaN, 0.1 * 2.7 * 12, 1e-12);
  });

  test("open from value to value towards the steady ones", () => {
    const open = halves("start-up");
    for (const [i, half] of open.slice(0, 60).entries()) expect(half).toBeLessThan(open[i + 1] ?? Number.NaN);
    expectNear(open.at(-1) ?? Number.NaN, halves("steady").at(-1) ?? Number.NaN, 1e-12);
  });

  test("that are steady are the same from the first value on", () => {
    expect(new Set(halves("steady")).size).toBe(1);
    expectNear(halves("steady")[0] ?? Number.NaN, 2.7 * 12 * Math.sqrt(0.1 / 1.9), 1e-12);
  });

  test("show how the average of a steady process scatters", () => {
    const runs = normalRuns(4000, 5, 17);
    const choice = { lambda: 0.3, widthSigmas: 1, limits: "start-up" } as const;
    const fifth = runs.map((run) => ewmaOf(run, { centre: 0, sigma: 1 }, choice)[4]);
    const meanSquare = fifth.reduce((sum, point) => sum + (point?.ewma ?? Number.NaN) ** 2, 0) / runs.length;
    const error = Math.sqrt(2 / runs.length);
    expectNear(meanSquare / (fifth[0]?.upper ?? Number.NaN) ** 2, 1, 0, 4 * error);
  });
});

test("a shift that single values hide comes out on its side", () => {
  const up = ewmaOf(
    Array.from({ length: 20 }, () => 718),
    process,
  );
  const first = up.findIndex(({ side }) => side === "above");
  expect(first).toBeGreaterThan(0);
  expect(up.slice(first).every(({ side }) => side === "above")).toBe(true);
  const down = ewmaOf(
    Array.from({ length: 20 }, () => 682),
    process,
  );
  expect(down.findIndex(({ side }) => side === "below")).toBe(first);
});

test.each([0, -0.1, 1.01, Number.NaN])("a lambda of %d is the caller's fault", (lambda) => {
  expect(() => ewmaOf([700], process, { ...USUAL_EWMA, lambda })).toThrow(RangeError);
});

test("without values there are no points", () => expect(ewmaOf([], process)).toEqual([]));
