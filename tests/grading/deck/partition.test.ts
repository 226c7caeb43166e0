import fc from "fast-check";
import { expect, test } from "vitest";
import { partitionOf } from "../../../src/grading/deck/partition.ts";
import { totalEfficiencyPct } from "../../../src/grading/deck/totalEfficiency.ts";
import { expectNear } from "../near.ts";
import { numberOf, reasonOf } from "../stack.ts";
import { anyDeck, classesOf, partedStreams, streamsOf } from "./streams.ts";

const numbers = (partition: ReturnType<typeof partitionOf>) => partition.map((each) => numberOf(each.toOversizePct));

test("worked by hand: a quarter over; class 1 is 80 % of oversize and 20 % of undersize: 100*20/(20+15)", () => {
  const classes = classesOf(streamsOf("1000:35 pan:65", "1000:80 pan:20", "1000:20 pan:80"));
  const [coarse, fine] = numbers(partitionOf(classes, 0.25));
  expectNear(coarse!, 2000 / 35, 1e-14);
  expectNear(fine!, (100 * 5) / 65, 1e-14);
});

test("streams parted by known numbers give these numbers back, and keep 0..100", () =>
  fc.assert(
    fc.property(anyDeck, ({ feedG, partitionPct }) => {
      const whole = feedG.reduce((sum, g) => sum + g, 0);
      const over = feedG.reduce((sum, g, i) => sum + (g * partitionPct[i]!) / 100, 0);
      const found = numbers(partitionOf(classesOf(partedStreams(feedG, partitionPct)), over / whole));
      found.forEach((pct, i) => {
        expectNear(pct, partitionPct[i]!, 1e-10);
        expect(pct).toBeLessThanOrEqual(100);
      });
    }),
  ));

test("weighted with the feed they add up to the share of oversize", () =>
  fc.assert(
    fc.property(anyDeck, ({ feedG, partitionPct }) => {
      const classes = classesOf(partedStreams(feedG, partitionPct));
      const whole = feedG.reduce((sum, g) => sum + g, 0);
      const share = feedG.reduce((sum, g, i) => sum + (g * partitionPct[i]!) / 100, 0) / whole;
      const caught = partitionOf(classes, share).map((each) => ({
        mass: each.feedPct,
        caughtPct: numberOf(each.toOversizePct),
      }));
      expectNear(totalEfficiencyPct(caught)!, 100 * share, 1e-10);
    }),
  ));

test("a class that neither product has is left open with a reason; what the feed has there does not help", () => {
  const classes = classesOf(streamsOf("4000:2 1000:40 pan:58", "4000:0 1000:80 pan:20", "4000:0 1000:20 pan:80"));
  const [top, ...rest] = partitionOf(classes, 0.3);
  expect(reasonOf(top!.toOversizePct)).toBe("neither product has anything in this class");
  expect(rest.every((each) => each.toOversizePct.determinable)).toBe(true);
});

test("a class that only one product has goes wholly there", () => {
  const classes = classesOf(streamsOf("4000:10 1000:40 pan:50", "4000:30 1000:70 pan:0", "4000:0 1000:30 pan:70"));
  const [top, , pan] = numbers(partitionOf(classes, 0.4));
  expect([top, pan]).toEqual([100, 0]);
});

test("total efficiency does not depend on the unit of the masses, and needs some mass", () => {
  const classes = [
    { mass: 2, caughtPct: 10 },
    { mass: 6, caughtPct: 50 },
  ];
  expect(totalEfficiencyPct(classes)).toBe(40);
  expect(totalEfficiencyPct(classes.map((each) => ({ ...each, mass: each.mass * 7 })))).toBe(40);
  expect(totalEfficiencyPct([])).toBeNull();
  expect(totalEfficiencyPct([{ mass: 0, caughtPct: 50 }])).toBeNull();
});
