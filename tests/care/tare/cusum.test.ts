import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cusum } from "../../../src/care/tare/cusum.ts";
import { shapeOf } from "../../../src/care/tare/shape.ts";
import { chanceFrom } from "../simulation/chance.ts";

const zs = fc.array(fc.double({ min: -20, max: 20, noNaN: true }), { minLength: 1, maxLength: 60 });

describe("cumulative sums", () => {
  test.each([
    ["steady weighings", [0, 0.5, -0.8, 0.9, -0.3, 0.2], null],
    ["one wild weighing", [0, 0, 0, 500, 0, 0], null],
    ["two wild weighings in a row", [0, 0, 4, 4], null],
    ["three in a row, all high", [0, 0, 4, 4, 4], "rise"],
    ["three in a row, all low", [0, 0, -4, -4, -4], "fall"],
    ["a slow rise", Array.from({ length: 12 }, (_, i) => 0.3 * i), "rise"],
    ["a rise that was over ten weighings ago", [5, 5, 5, 5, 5, 5, 0, 0, 0, 0, 0, 0, 0], null],
    ["less than the slack, for ever", Array.from({ length: 500 }, () => 0.9), null],
  ] as const)("of %s alarm %s", (_, z, alarm) => expect(cusum([...z]).alarm).toBe(alarm));

  test("tell since when", () => {
    expect(cusum([0, 0, 0, 3, 3, 3, 3]).since).toBe(3);
    expect(cusum([0, 0, 0, -3, -3, -3, -3]).since).toBe(3);
    expect(cusum([0, 0]).since).toBe(2);
  });

  test("for a rise begin anew at a cleaning; for a fall they don't", () => {
    const rise = [4, 4, 4, 0, 0];
    expect(cusum(rise).alarm).toBe("rise");
    expect(cusum(rise, new Set([3])).alarm).toBeNull();
    expect(
      cusum(
        rise.map((z) => -z),
        new Set([3]),
      ).alarm,
    ).toBe("fall");
  });

  test("are mirrored by mirrored weighings", () =>
    fc.assert(
      fc.property(zs, (z) => {
        const [one, other] = [cusum(z), cusum(z.map((x) => -x))];
        const mirrored = one.alarm === "rise" ? "fall" : one.alarm === "fall" ? "rise" : null;
        expect(other.alarm).toBe(mirrored);
      }),
    ));

  test("stay silent over 100 000 weighings of normal noise about a known level, nearly always", () => {
    const { normal } = chanceFrom(31);
    const z = Array.from({ length: 100_000 }, () => normal(0, 1));
    let alarms = 0;
    for (let i = 0; i < z.length; i += 500) if (cusum(z.slice(i, i + 500)).alarm !== null) alarms++;
    expect(alarms).toBe(0);
  });
});

describe("the shape of a change", () => {
  const noise = (seed: number) => {
    const { normal } = chanceFrom(seed);
    return (length: number, course: (i: number) => number) =>
      Array.from({ length }, (_, i) => course(i) + normal(0, 0.2));
  };

  test("is a step where it came at once, and slow where it came bit by bit", () => {
    let right = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const made = noise(seed);
      if (shapeOf(made(16, (i) => (i >= 8 ? 3 : 0))).way === "step") right++;
      if (shapeOf(made(16, (i) => Math.max(0, i - 7) * 0.4)).way === "slow") right++;
    }
    expect(right).toBeGreaterThan(190);
  });

  test("begins where it began, to a weighing or two", () => {
    const made = noise(7);
    expect(shapeOf(made(16, (i) => (i >= 8 ? 3 : 0))).from).toBe(8);
    expect(Math.abs(shapeOf(made(20, (i) => Math.max(0, i - 9) * 0.5)).from - 10)).toBeLessThanOrEqual(2);
  });

  test("does not depend on its direction or size", () =>
    fc.assert(
      fc.property(zs, fc.double({ min: 0.1, max: 50, noNaN: true }), (moves, by) => {
        const { way } = shapeOf(moves);
        expect(shapeOf(moves.map((m) => -m)).way).toBe(way);
        expect(["step", "slow"]).toContain(shapeOf(moves.map((m) => m * by)).way);
      }),
    ));
});
