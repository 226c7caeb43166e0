import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { splitAtCut, splitByClasses } from "../../../src/grading/deck/massSplit.ts";
import { expectNear } from "../near.ts";
import { anyDeck, classesOf, DECK_B_SHARE, deckB, partedStreams, streamsOf } from "./streams.ts";

const shareOf = (outcome: ReturnType<typeof splitByClasses>) => {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value.oversizeShare;
};

describe("over all classes", () => {
  test("worked by hand: f 50 50, d 80 20, b 30 70 give (20*50 + 20*50)/(2*50^2) = 0.4", () => {
    const classes = classesOf(streamsOf("1000:50 pan:50", "1000:80 pan:20", "1000:30 pan:70"));
    expectNear(shareOf(splitByClasses(classes)), 0.4, 1e-14);
  });

  test("streams that balance give back the share they were parted by", () => {
    expectNear(shareOf(splitByClasses(classesOf(deckB))), DECK_B_SHARE, 1e-13);
    fc.assert(
      fc.property(anyDeck, ({ feedG, partitionPct }) => {
        const whole = feedG.reduce((sum, g) => sum + g, 0);
        const over = feedG.reduce((sum, g, i) => sum + (g * partitionPct[i]!) / 100, 0);
        const found = shareOf(splitByClasses(classesOf(partedStreams(feedG, partitionPct))));
        expectNear(found, over / whole, 1e-9);
      }),
    );
  });

  test("no other share leaves a smaller sum of squared misfits", () => {
    const classes = classesOf(
      streamsOf("4000:12 2000:38 1000:31 pan:19", "4000:20 2000:70 1000:8 pan:2", "4000:1 2000:10 1000:52 pan:37"),
    );
    const misfit = (s: number) =>
      classes.reduce((sum, c) => sum + (c.feedPct - s * c.oversizePct - (1 - s) * c.undersizePct) ** 2, 0);
    const found = shareOf(splitByClasses(classes));
    for (let s = 0; s <= 1; s += 0.001) expect(misfit(s)).toBeGreaterThanOrEqual(misfit(found));
  });
});

describe("at one aperture", () => {
  test("worked by hand: x_F 0.5, x_D 0.8, x_B 0.3 give 0.2/0.5", () =>
    expectNear(shareOf(splitAtCut({ feed: 50, oversize: 80, undersize: 30 })), 0.4, 1e-14));

  test("is the split over all classes if there are two of them", () =>
    fc.assert(
      fc.property(fc.integer({ min: 41, max: 59 }), (x) => {
        const classes = classesOf(streamsOf(`1000:${x} pan:${100 - x}`, "1000:60 pan:40", "1000:40 pan:60"));
        const atCut = splitAtCut({ feed: x, oversize: 60, undersize: 40 });
        expectNear(shareOf(splitByClasses(classes)), shareOf(atCut), 1e-12);
      }),
    ));
});

describe("refuses in words", () => {
  const reasonOf = (feed: number, oversize: number, undersize: number) => {
    const outcome = splitAtCut({ feed, oversize, undersize });
    return outcome.ok ? "" : outcome.reason;
  };

  test("products of the same grading", () => {
    const same = "oversize and undersize have the same grading: nothing was separated, or one was sieved twice";
    expect(reasonOf(50, 60, 60)).toBe(same);
    const alike = classesOf(streamsOf("1000:50 pan:50", "1000:60 pan:40", "1000:60 pan:40"));
    expect(splitByClasses(alike)).toEqual({ ok: false, reason: same });
  });

  test("a share above the whole feed, with the figure", () =>
    expect(reasonOf(90, 80, 30)).toBe(
      "the three gradings do not balance: the oversize would be 120 % of the feed; were the samples exchanged or taken at different times?",
    ));

  test("a share below nothing", () =>
    expect(reasonOf(20, 80, 30)).toMatch(/the oversize would be less than nothing of/));

  test("all or nothing: then one of the products is not there", () => {
    expect(reasonOf(80, 80, 30)).toMatch(/would be 100 % of the feed/);
    expect(reasonOf(30, 80, 30)).toMatch(/would be 0 % of the feed/);
  });
});
