import { expect, test } from "vitest";
import { balanceOf } from "../../../src/grading/deck/balance.ts";
import { splitByClasses } from "../../../src/grading/deck/massSplit.ts";
import { expectNear } from "../near.ts";
import { classesOf, DECK_B_SHARE, deckB, streamsOf } from "./streams.ts";

test("streams that balance have no misfit and a share without error", () => {
  const balance = balanceOf(classesOf(deckB), DECK_B_SHARE);
  expectNear(balance.rmsPct, 0, 0, 1e-12);
  expectNear(balance.shareError!, 0, 0, 1e-12);
});

test("worked by hand: half of 60 30 10 and 20 30 50 is 40 30 30; a feed of 43 30 27 is off by 3, 0 and -3", () => {
  const classes = classesOf(streamsOf("2000:43 1000:30 pan:27", "2000:60 1000:30 pan:10", "2000:20 1000:30 pan:50"));
  const balance = balanceOf(classes, 0.5);
  expectNear(balance.rmsPct, Math.sqrt(18 / 3), 1e-13);
  expectNear(Math.abs(balance.worstPct), 3, 1e-13);
  expectNear(balance.shareError!, Math.sqrt(18 / 1 / (40 ** 2 + 40 ** 2)), 1e-13);
});

test("names the class that is furthest off, with its sign: 42 33 25 against 40 30 30 is 5 short in the pan", () => {
  const classes = classesOf(streamsOf("2000:42 1000:33 pan:25", "2000:60 1000:30 pan:10", "2000:20 1000:30 pan:50"));
  const balance = balanceOf(classes, 0.5);
  expectNear(balance.worstPct, -5, 1e-13);
  expect(balance.worstOn).toBe("pan");
});

test("two classes always balance, so they judge nothing", () => {
  const classes = classesOf(streamsOf("1000:55 pan:45", "1000:80 pan:20", "1000:30 pan:70"));
  const split = splitByClasses(classes);
  const balance = balanceOf(classes, split.ok ? split.value.oversizeShare : 0);
  expectNear(balance.rmsPct, 0, 0, 1e-12);
  expect(balance.shareError).toBeNull();
});
