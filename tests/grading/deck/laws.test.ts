import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { deckPerformance } from "../../../src/grading/deck/deckPerformance.ts";
import { expectNear } from "../near.ts";
import { normalRuns } from "../normalScatter.ts";
import { fraction, gradedOf, numberOf } from "../stack.ts";
import { anyDeck, type DeckStreams, partedStreams, STACK } from "./streams.ts";

type Choices = Parameters<typeof deckPerformance>[3];
const performance = ({ feed, oversize, undersize }: DeckStreams, choices: Partial<Choices> = {}) =>
  deckPerformance(feed, oversize, undersize, { interpolation: "log-linear", cutUm: 2800, ...choices });

/** Grams of the three streams as `partedStreams` makes them, before grading. */
const gramsOf = (feedG: readonly number[], partitionPct: readonly number[]) => ({
  over: feedG.map((g, i) => (g * partitionPct[i]!) / 100),
  under: feedG.map((g, i) => (g * (100 - partitionPct[i]!)) / 100),
});

const gradedGrams = (netG: readonly number[], stack: readonly number[]) =>
  gradedOf(netG.map((net, i) => fraction(stack[i]!, net)));

describe("exchanging oversize and undersize", () => {
  test("turns the share s into 1 - s, each partition number T into 100 - T and each recovery into the rest", () =>
    fc.assert(
      fc.property(anyDeck, ({ feedG, partitionPct }) => {
        const streams = partedStreams(feedG, partitionPct);
        const one = performance(streams);
        const other = performance({ ...streams, oversize: streams.undersize, undersize: streams.oversize });
        expectNear(numberOf(other.oversizeShare), 1 - numberOf(one.oversizeShare), 1e-9);
        expectNear(numberOf(other.oversizeRecovery), 1 - numberOf(one.oversizeRecovery), 0, 1e-9);
        expectNear(numberOf(other.undersizeRecovery), 1 - numberOf(one.undersizeRecovery), 0, 1e-9);
        for (const [i, each] of one.partition.entries()) {
          expectNear(numberOf(other.partition[i]!.toOversizePct), 100 - numberOf(each.toOversizePct), 0, 1e-7);
        }
      }),
    ));
});

describe("another stack for the same streams", () => {
  test("leaving a sieve out changes neither recoveries nor the split at an aperture that stays", () =>
    fc.assert(
      fc.property(anyDeck, fc.integer({ min: 0, max: 2 }), ({ feedG, partitionPct }, gone) => {
        const { over, under } = gramsOf(feedG, partitionPct);
        const stack = STACK.toSpliced(gone, 1);
        const merged = (grams: readonly number[]) => grams.toSpliced(gone, 2, grams[gone]! + grams[gone + 1]!);
        const full = performance(partedStreams(feedG, partitionPct), { split: "cut", cutUm: 2000 });
        const less = performance(
          {
            feed: gradedGrams(merged(feedG), stack),
            oversize: gradedGrams(merged(over), stack),
            undersize: gradedGrams(merged(under), stack),
          },
          { split: "cut", cutUm: 2000 },
        );
        expectNear(numberOf(less.oversizeShare), numberOf(full.oversizeShare), 1e-9);
        expectNear(numberOf(less.overallEffectiveness), numberOf(full.overallEffectiveness), 1e-9);
      }),
    ));

  test("a sieve between two that parts a class evenly in all streams leaves the split over all classes", () =>
    fc.assert(
      fc.property(anyDeck, fc.double({ min: 0.1, max: 0.9, noNaN: true }), ({ feedG, partitionPct }, part) => {
        const { over, under } = gramsOf(feedG, partitionPct);
        const stack = [8000, 5600, 4000, 3350, 2800, 2000, 1000, 0];
        const parted = (grams: readonly number[]) => grams.toSpliced(3, 1, grams[3]! * part, grams[3]! * (1 - part));
        const more = performance({
          feed: gradedGrams(parted(feedG), stack),
          oversize: gradedGrams(parted(over), stack),
          undersize: gradedGrams(parted(under), stack),
        });
        const fewer = performance(partedStreams(feedG, partitionPct));
        expectNear(numberOf(more.oversizeShare), numberOf(fewer.oversizeShare), 1e-9);
        expectNear(numberOf(more.partition[3]!.toOversizePct), numberOf(more.partition[4]!.toOversizePct), 1e-9);
      }),
    ));
});

describe("devices whose answer is known", () => {
  const feedG = [20, 80, 150, 200, 220, 230, 100];

  test("a perfect screen at 2.8 mm has effectiveness 1 there, and its cut between the classes beside it", () => {
    const found = performance(partedStreams(feedG, [100, 100, 100, 100, 0, 0, 0]));
    expect(numberOf(found.overallEffectiveness)).toBeCloseTo(1, 12);
    expectNear(numberOf(found.cutSizeUm), Math.sqrt(Math.sqrt(2000 * 2800) * Math.sqrt(2800 * 4000)), 1e-12);
    expect(found.sharpness).toMatchObject({
      assumptions: ["no class lies between d25 and d75: the cut may be sharper than these sieves can show"],
    });
  });

  test("a perfect screen elsewhere loses one of the two recoveries at 2.8 mm, and only that", () => {
    const coarser = performance(partedStreams(feedG, [100, 100, 100, 0, 0, 0, 0]));
    expectNear(numberOf(coarser.oversizeRecovery), 250 / 450, 1e-12);
    expectNear(numberOf(coarser.undersizeRecovery), 1, 1e-12);
    const finer = performance(partedStreams(feedG, [100, 100, 100, 100, 100, 0, 0]));
    expectNear(numberOf(finer.oversizeRecovery), 1, 1e-12);
    expectNear(numberOf(finer.undersizeRecovery), 330 / 550, 1e-12);
  });

  test("a blinded screen sends more over and recovers less undersize, the more the blinder", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.45, noNaN: true }),
        fc.double({ min: 0.5, max: 0.9, noNaN: true }),
        (little, much) => {
          const blinded = (part: number) => {
            const open = [100, 98, 90, 60, 20, 4, 1];
            return performance(
              partedStreams(
                feedG,
                open.map((pct) => pct + part * (100 - pct)),
              ),
            );
          };
          const [less, more] = [blinded(little), blinded(much)];
          expect(numberOf(more.oversizeShare)).toBeGreaterThan(numberOf(less.oversizeShare));
          expect(numberOf(more.undersizeRecovery)).toBeLessThan(numberOf(less.undersizeRecovery));
          expect(numberOf(more.oversizeRecovery)).toBeGreaterThan(numberOf(less.oversizeRecovery));
        },
      ),
    ));
});

describe("scatter in the samples", () => {
  const feedG = [120, 80, 150, 200, 220, 130, 100];
  const partitionPct = [99, 97, 90, 60, 20, 6, 2];
  const { over, under } = gramsOf(feedG, partitionPct);
  const truth = over.reduce((sum, g) => sum + g, 0) / 1000;

  test("of the feed moves the share about as far as its standard error says", () => {
    const runs = normalRuns(400, 7, 20261124).map((off) => {
      const feed = gradedGrams(
        feedG.map((g, i) => g + 2 * off[i]!),
        STACK,
      );
      const found = performance({ feed, oversize: gradedGrams(over, STACK), undersize: gradedGrams(under, STACK) });
      return { off: numberOf(found.oversizeShare) - truth, error: found.balance!.shareError! };
    });
    const meanSquare = (all: readonly number[]) => all.reduce((sum, each) => sum + each ** 2, 0) / all.length;
    const ratio = Math.sqrt(meanSquare(runs.map(({ off }) => off)) / meanSquare(runs.map(({ error }) => error)));
    // 400 runs know it to 3.5 %; that shares must add to 100 % makes the misfits a little dependent.
    expect(ratio).toBeGreaterThan(0.85);
    expect(ratio).toBeLessThan(1.15);
  });

  test("doubled, doubles misfit and standard error", () => {
    const off = [2, -1, 3, -2, 1, -2, -1];
    const at = (times: number) => {
      const feed = gradedGrams(
        feedG.map((g, i) => g + times * off[i]!),
        STACK,
      );
      return performance({ feed, oversize: gradedGrams(over, STACK), undersize: gradedGrams(under, STACK) }).balance!;
    };
    expectNear(at(2).rmsPct, 2 * at(1).rmsPct, 1e-9);
    expectNear(at(2).shareError!, 2 * at(1).shareError!, 1e-9);
    expectNear(at(2).worstPct, 2 * at(1).worstPct, 1e-9);
  });
});
