import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { deckPerformance } from "../../../src/grading/deck/deckPerformance.ts";
import type { Determination } from "../../../src/record/determination.ts";
import { expectNear } from "../near.ts";
import { anyInterpolation, assumptionsOf, graded, numberOf, reasonOf } from "../stack.ts";
import {
  anyDeck,
  DECK_B_SHARE,
  type DeckStreams,
  deckB,
  PARTITION_PCT,
  partedStreams,
  STACK,
  streamsOf,
} from "./streams.ts";

type Choices = Parameters<typeof deckPerformance>[3];
const performance = ({ feed, oversize, undersize }: DeckStreams, choices: Partial<Choices> = {}) =>
  deckPerformance(feed, oversize, undersize, { interpolation: "log-linear", ...choices });

const good = performance(deckB);

describe("screen deck B of Tessel Hollow", () => {
  test("share of oversize, partition numbers and cut size are those it was made with", () => {
    expectNear(numberOf(good.oversizeShare), DECK_B_SHARE, 1e-12);
    for (const [i, each] of good.partition.entries())
      expectNear(numberOf(each.toOversizePct), PARTITION_PCT[i]!, 1e-11);
    const [low, high] = [Math.sqrt(2000 * 2800), Math.sqrt(2800 * 4000)];
    expectNear(numberOf(good.cutSizeUm), low * (high / low) ** 0.75, 1e-12);
    expectNear(good.balance!.rmsPct, 0, 0, 1e-12);
  });

  test("recoveries are counted from the grams at 2.8 mm, the sieve nearest the cut size", () => {
    expect(numberOf(good.cutUm)).toBe(2800);
    expect(assumptionsOf(good.cutUm)).toEqual(["2.80 mm, the sieve nearest the cut size"]);
    expectNear(numberOf(good.oversizeRecovery), (20 + 78.4 + 135 + 120) / 450, 1e-12);
    expectNear(numberOf(good.undersizeRecovery), (176 + 220.8 + 99) / 550, 1e-12);
    expectNear(numberOf(good.overallEffectiveness), (353.4 / 450) * (495.8 / 550), 1e-12);
  });

  test("imperfection and sharpness follow from its d25 and d75", () => {
    const [fine, coarse] = [numberOf(good.d25Um), numberOf(good.d75Um)];
    const third = Math.sqrt(2800 * 4000);
    expectNear(coarse, third * (Math.sqrt(4000 * 5600) / third) ** 0.5, 1e-12);
    expectNear(numberOf(good.imperfection), (coarse - fine) / (2 * numberOf(good.cutSizeUm)), 1e-12);
    expectNear(numberOf(good.sharpness), fine / coarse, 1e-12);
    expectNear(numberOf(good.probableErrorUm), (coarse - fine) / 2, 1e-12);
  });

  test("another aperture gives other recoveries and leaves all else", () => {
    const at4 = performance(deckB, { cutUm: 4000 });
    expectNear(numberOf(at4.oversizeRecovery), (20 + 78.4 + 135) / 250, 1e-12);
    expectNear(numberOf(at4.undersizeRecovery), (80 + 176 + 220.8 + 99) / 750, 1e-12);
    expect(assumptionsOf(at4.cutUm)).toEqual([]);
    expect([at4.partition, at4.cutSizeUm, at4.oversizeShare]).toEqual([
      good.partition,
      good.cutSizeUm,
      good.oversizeShare,
    ]);
  });

  test("has all keys of the contract", () =>
    expect(Object.keys(good)).toEqual(
      expect.arrayContaining([
        "oversizeShare",
        "oversizeRecovery",
        "undersizeRecovery",
        "overallEffectiveness",
        "partition",
        "cutSizeUm",
        "imperfection",
      ]),
    ));
});

describe("streams that balance", () => {
  test("are split alike over all classes and at one aperture, and have the same recoveries by either feed", () =>
    fc.assert(
      fc.property(anyDeck, fc.constantFrom(...STACK.slice(0, -1)), ({ feedG, partitionPct }, cutUm) => {
        const streams = partedStreams(feedG, partitionPct);
        const [all, one] = [performance(streams, { cutUm }), performance(streams, { cutUm, split: "cut" })];
        expectNear(numberOf(one.oversizeShare), numberOf(all.oversizeShare), 1e-8);
        expectNear(numberOf(all.ofProducts.oversizeRecovery), numberOf(all.oversizeRecovery), 1e-8);
        expectNear(numberOf(all.ofProducts.undersizeRecovery), numberOf(all.undersizeRecovery), 1e-8);
        expectNear(
          numberOf(all.overallEffectiveness),
          numberOf(all.oversizeRecovery) * numberOf(all.undersizeRecovery),
          1e-14,
        );
      }),
    ));

  test("give the same for any masses of the three samples", () =>
    fc.assert(
      fc.property(anyDeck, anyInterpolation, ({ feedG, partitionPct }, interpolation) => {
        const streams = partedStreams(feedG, partitionPct);
        const tenfold = partedStreams(
          feedG.map((g) => g * 10),
          partitionPct,
        );
        const [one, other] = [
          performance(streams, { interpolation }),
          performance({ ...streams, oversize: tenfold.oversize }, { interpolation }),
        ];
        expectNear(numberOf(other.oversizeShare), numberOf(one.oversizeShare), 1e-10);
        expect(other.cutSizeUm.determinable).toBe(one.cutSizeUm.determinable);
      }),
    ));

  test("a recovery is the feed-weighted mean of the partition numbers above the aperture", () =>
    fc.assert(
      fc.property(anyDeck, ({ feedG, partitionPct }) => {
        const found = performance(partedStreams(feedG, partitionPct), { cutUm: 2800 });
        const above = found.partition.filter((each) => each.apertureUm >= 2800);
        const [over, all] = [
          above.reduce((sum, each) => sum + (each.feedPct * numberOf(each.toOversizePct)) / 100, 0),
          above.reduce((sum, each) => sum + each.feedPct, 0),
        ];
        expectNear(numberOf(found.oversizeRecovery), over / all, 1e-8);
      }),
    ));
});

const everyDetermination = (found: ReturnType<typeof performance>): readonly Determination[] => {
  const { partition, balance, ofProducts, ...rest } = found;
  return [...Object.values(rest), ...Object.values(ofProducts)];
};

describe("when it cannot be", () => {
  const noneOf = (streams: DeckStreams, choices: Partial<Choices> = {}) => {
    const found = performance(streams, choices);
    expect([found.partition, found.balance]).toEqual([[], null]);
    return [...new Set(everyDetermination(found).map(reasonOf))];
  };

  test("products of one grading say so in every value", () => {
    const same = streamsOf("1000:50 pan:50", "1000:60 pan:40", "1000:60 pan:40");
    const reason = "oversize and undersize have the same grading: nothing was separated, or one was sieved twice";
    expect(noneOf(same)).toEqual([reason]);
    expect(noneOf(same, { split: "cut", cutUm: 1000 })).toEqual([reason]);
  });

  test("an impossible balance says so in every value", () => {
    const reasons = noneOf(streamsOf("1000:95 pan:5", "1000:80 pan:20", "1000:20 pan:80"));
    expect(reasons).toHaveLength(1);
    expect(reasons[0]).toMatch(/the oversize would be 125 % of the feed/);
  });

  test("different stacks say so in every value", () => {
    const streams = { ...deckB, feed: graded("2000:30 1000:50 pan:20") };
    expect(noneOf(streams)).toEqual(["feed, oversize and undersize need the same stack: the feed has no 8.00 mm"]);
  });

  test("a split at an aperture needs one", () => {
    const coarse = partedStreams([100, 100, 100, 100, 100, 100, 100], [99, 98, 97, 90, 85, 80, 60]);
    expect(noneOf(coarse, { split: "cut" })[0]).toMatch(/^no aperture was given and the cut size is below 707 um/);
    expect(numberOf(performance(coarse, { split: "cut", cutUm: 2800 }).oversizeShare)).toBeGreaterThan(0.8);
  });

  test("a curve that does not reach 50 % costs the cut size, the imperfection and the default aperture, not the rest", () => {
    const coarse = partedStreams([100, 100, 100, 100, 100, 100, 100], [99, 98, 97, 90, 85, 80, 60]);
    const found = performance(coarse);
    expect(reasonOf(found.cutSizeUm)).toMatch(/^below 707 um/);
    expect(reasonOf(found.imperfection)).toMatch(/^d25: below 707 um/);
    expect(reasonOf(found.oversizeRecovery)).toMatch(/^no aperture was given/);
    expect(reasonOf(found.ofProducts.overallEffectiveness)).toMatch(/^no aperture was given/);
    expect(numberOf(found.oversizeShare)).toBeGreaterThan(0.8);
    expect(found.partition).toHaveLength(7);
    expect(numberOf(performance(coarse, { cutUm: 2000 }).oversizeRecovery)).toBeGreaterThan(0.9);
  });

  test("an aperture outside the stack costs the recoveries alone", () => {
    const found = performance(deckB, { cutUm: 3000 });
    expect(reasonOf(found.oversizeRecovery)).toMatch(/3\.00 mm is none/);
    expect(found.cutSizeUm).toEqual(good.cutSizeUm);
  });

  test("exchanged products are told as such", () => {
    const found = performance({ ...deckB, oversize: deckB.undersize, undersize: deckB.oversize });
    expect(reasonOf(found.cutSizeUm)).toMatch(/were oversize and undersize exchanged\?$/);
    expectNear(numberOf(found.oversizeShare), 1 - DECK_B_SHARE, 1e-12);
  });
});

test("the aperture that the split at a cut chose by itself is told", () =>
  expect(assumptionsOf(performance(deckB, { split: "cut" }).cutUm)).toEqual([
    "2.80 mm, the sieve nearest the cut size",
  ]));

const within = (all: readonly Determination[], most: number) =>
  all.every((each) => !each.determinable || (each.value >= 0 && each.value <= most));

test("whatever the masses of three samples, no number is NaN or infinite and shares keep to 0..1", () => {
  const masses = fc
    .array(fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 500, noNaN: true })), { minLength: 7, maxLength: 7 })
    .filter((grams) => grams.some((g) => g > 0))
    .map((grams) => graded(grams.map((g, i) => `${STACK[i] || "pan"}:${g}`).join(" ")));
  const split = fc.constantFrom("classes" as const, "cut" as const);
  fc.assert(
    fc.property(masses, masses, masses, anyInterpolation, split, (feed, oversize, undersize, interpolation, by) => {
      const found = deckPerformance(feed, oversize, undersize, { interpolation, split: by, cutUm: 2000 });
      const partition = found.partition.map((each) => each.toOversizePct);
      for (const each of [...everyDetermination(found), ...partition]) {
        expect(each.determinable ? Number.isFinite(each.value) : each.reason.length > 15).toBe(true);
      }
      expect(within(partition, 100)).toBe(true);
      expect(within([found.oversizeShare, found.oversizeRecovery, found.undersizeRecovery], 1)).toBe(true);
    }),
    { numRuns: 300 },
  );
});
