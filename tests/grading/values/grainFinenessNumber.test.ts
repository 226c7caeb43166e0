import { describe, expect, test } from "vitest";
import { expectNear } from "../near.ts";
import { graded } from "../stack.ts";
import { number, reason } from "./valuesOf.ts";

const APERTURES = [3350, 1700, 850, 600, 425, 300, 212, 150, 106, 75, 53];
const COUNTS = [3, 5, 10, 20, 30, 40, 50, 70, 100, 140, 200, 300];
const sand = (masses: readonly number[], wash = {}) =>
  graded([...APERTURES, "pan"].map((um, i) => `${um}:${masses[i] ?? 0}`).join(" "), wash);
const only = (at: number) => sand(COUNTS.map((_, i) => (i === at ? 50 : 0)));

test.each(COUNTS.map((counts, at) => ({ counts, at })))(
  "all on row $at of the set counts $counts",
  ({ counts, at }) => {
    expectNear(number("grainFinenessNumber", only(at)), counts, 1e-15);
  },
);

test("worked by hand: (10 x 30 + 30 x 40 + 10 x 50)/50", () => {
  expectNear(number("grainFinenessNumber", sand([0, 0, 0, 0, 10, 30, 10])), 40, 1e-15);
});

test("clay that was washed out does not count", () => {
  const masses = [0, 0, 0, 0, 10, 30, 10];
  expectNear(number("grainFinenessNumber", sand(masses, { chargeG: 60, washedG: 50 })), 40, 1e-15);
});

test("a sieve beside the set counts with the next finer one of the set", () => {
  const beside = graded("4750:1 3350:1 1700:0 850:0 600:0 425:0 355:8 300:0 212:0 150:0 106:0 75:0 53:0 pan:0");
  expectNear(number("grainFinenessNumber", beside), (2 * 3 + 8 * 40) / 10, 1e-15);
});

describe("a stack that is not the AFS set names what it lacks", () => {
  test("one sieve", () => {
    const text = "3350:0 1700:0 850:1 600:2 425:9 300:20 212:10 150:5 75:1 53:1 pan:1";
    expect(reason("grainFinenessNumber", graded(text))).toBe("needs the 140 mesh (106 um) sieve");
  });

  test("several", () => {
    const text = "850:1 600:2 425:9 300:20 212:10 150:5 106:2 75:1 53:1 pan:1";
    expect(reason("grainFinenessNumber", graded(text))).toBe("needs the 6 mesh (3.35 mm) and 12 mesh (1.70 mm) sieves");
  });
});
