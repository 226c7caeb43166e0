import { describe, expect, test } from "vitest";
import { deckClasses } from "../../../src/grading/deck/classes.ts";
import { expectNear } from "../near.ts";
import { graded } from "../stack.ts";
import { classesOf, streamsOf } from "./streams.ts";

const classes = classesOf(
  streamsOf("4000:10 2000:40 1000:30 pan:20", "4000:20 2000:70 1000:8 pan:2", "4000:0 2000:10 1000:52 pan:38"),
);

test("each class has its sieve and its % of every stream, coarsest first, the pan last", () => {
  expect(classes.map((each) => each.apertureUm)).toEqual([4000, 2000, 1000, 0]);
  expect(classes.map((each) => each.feedPct)).toEqual([10, 40, 30, 20]);
  expect(classes.map((each) => each.oversizePct)).toEqual([20, 70, 8, 2]);
  expect(classes.map((each) => each.undersizePct)).toEqual([0, 10, 52, 38]);
});

test("between two sieves the geometric middle stands for the class, without an assumption", () => {
  expectNear(classes[1]!.sizeUm, Math.sqrt(2000 * 4000), 1e-14);
  expectNear(classes[2]!.sizeUm, Math.sqrt(1000 * 2000), 1e-14);
  expect(classes.slice(1, 3).map(({ assumption }) => assumption)).toEqual([null, null]);
});

test("the open ends are taken as the next R20/3 size and half the finest aperture, and say so", () => {
  expectNear(classes[0]!.sizeUm, Math.sqrt(4000 * 5600), 1e-14);
  expect(classes[0]!.assumption).toBe("what lies on the 4.00 mm sieve is taken to pass 5.60 mm");
  expectNear(classes[3]!.sizeUm, Math.sqrt(500 * 1000), 1e-14);
  expect(classes[3]!.assumption).toBe("what lies in the pan is taken to be coarser than 500 um");
});

describe("whatever the basis of a stream's grading", () => {
  test("its classes add to 100 %, a loss in sieving belonging to none", () => {
    const lossy = graded("2000:30 1000:50 pan:10", { basis: "charge", chargeG: 100 });
    const [first, ...rest] = classesOf({ feed: lossy, oversize: lossy, undersize: lossy });
    expectNear(first!.feedPct, 100 / 3, 1e-14);
    expectNear(
      [first!, ...rest].reduce((sum, each) => sum + each.feedPct, 0),
      100,
      1e-14,
    );
  });
});

describe("refuses streams from different stacks, naming sieve and stream", () => {
  const two = graded("2000:30 1000:50 pan:20");
  const three = graded("2000:30 1400:20 1000:30 pan:20");

  test("a sieve that one lacks", () => {
    expect(deckClasses({ feed: three, oversize: three, undersize: two })).toEqual({
      ok: false,
      reason: "feed, oversize and undersize need the same stack: the undersize has no 1.40 mm",
    });
  });

  test("a sieve that only one has", () => {
    const outcome = deckClasses({ feed: two, oversize: three, undersize: two });
    expect(!outcome.ok && outcome.reason).toMatch(/the feed has no 1\.40 mm$/);
  });
});
