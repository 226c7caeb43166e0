import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chanceFrom } from "../../src/demo/chance.ts";

const seeds = fc.integer({ min: 0, max: 2 ** 31 - 1 });
const many = (seed: number, draw: (chance: ReturnType<typeof chanceFrom>) => number, count = 4000) => {
  const chance = chanceFrom(seed);
  return Array.from({ length: count }, () => draw(chance));
};
const mean = (figures: readonly number[]) => figures.reduce((sum, figure) => sum + figure, 0) / figures.length;

describe("seeded chance", () => {
  test("is the same for the same seed, and another for another", () => {
    const draws = (seed: number) => many(seed, (chance) => chance.even(), 20);
    fc.assert(
      fc.property(seeds, seeds, (one, other) => {
        expect(draws(one)).toEqual(draws(one));
        if (one !== other) expect(draws(one)).not.toEqual(draws(other));
      }),
      { numRuns: 50 },
    );
  });

  test("is even between 0 and 1, never either of them", () => {
    const figures = many(1, (chance) => chance.even());
    expect(figures.every((figure) => figure > 0 && figure < 1)).toBe(true);
    expect(mean(figures)).toBeCloseTo(0.5, 1);
    for (let tenth = 0; tenth < 10; tenth++) {
      const share = figures.filter((figure) => Math.floor(10 * figure) === tenth).length / figures.length;
      expect(Math.abs(share - 0.1)).toBeLessThan(0.02);
    }
  });

  test("is normal with the mean and the deviation asked for", () => {
    const figures = many(7, (chance) => chance.normal(300, 3));
    expect(Math.abs(mean(figures) - 300)).toBeLessThan(0.2);
    expect(Math.sqrt(mean(figures.map((figure) => (figure - 300) ** 2)))).toBeCloseTo(3, 0);
    const within = figures.filter((figure) => Math.abs(figure - 300) < 3).length / figures.length;
    expect(Math.abs(within - 0.6827)).toBeLessThan(0.03);
    expect(figures.every(Number.isFinite)).toBe(true);
  });

  test("picks each of a list about as often as the others", () => {
    const counts = new Map<string, number>();
    const chance = chanceFrom(3);
    for (let i = 0; i < 3000; i++) {
      const picked = chance.pick(["a", "b", "c"]);
      counts.set(picked, (counts.get(picked) ?? 0) + 1);
    }
    expect([...counts.keys()].toSorted()).toEqual(["a", "b", "c"]);
    for (const count of counts.values()) expect(Math.abs(count - 1000)).toBeLessThan(120);
    expect(chance.pick(["only"])).toBe("only");
  });
});
