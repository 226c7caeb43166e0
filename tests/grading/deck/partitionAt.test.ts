import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { partitionOf } from "../../../src/grading/deck/partition.ts";
import { partitionAt } from "../../../src/grading/deck/partitionAt.ts";
import { partitionSizeUm } from "../../../src/grading/deck/partitionSize.ts";
import { anyInterpolation, numberOf } from "../stack.ts";
import { anyDeck, classesOf, DECK_B_SHARE, deckB, partedStreams, streamsOf } from "./streams.ts";

const deckBPartition = partitionOf(classesOf(deckB), DECK_B_SHARE);

describe("the partition curve read at a size", () => {
  test("is each class's own figure at its middle", () => {
    const at = partitionAt(deckBPartition, "monotone");
    for (const { sizeUm, toOversizePct } of deckBPartition) expect(at(sizeUm)).toBe(numberOf(toOversizePct));
  });

  test("log-linear at the geometric middle between two classes is their mean", () => {
    const [, , , coarse, fine] = deckBPartition;
    const middleUm = Math.sqrt((coarse?.sizeUm ?? 0) * (fine?.sizeUm ?? 0));
    expect(partitionAt(deckBPartition, "log-linear")(middleUm)).toBeCloseTo((60 + 20) / 2, 9);
  });

  test("is nothing beyond the classes", () => {
    const at = partitionAt(deckBPartition, "log-linear");
    const sizes = deckBPartition.map(({ sizeUm }) => sizeUm);
    expect(at(Math.min(...sizes) * 0.999)).toBeNull();
    expect(at(Math.max(...sizes) * 1.001)).toBeNull();
    expect(partitionAt([], "log-linear")(500)).toBeNull();
  });

  test("undoes the sizes that are read from it, by every rule", () =>
    fc.assert(
      fc.property(anyDeck, anyInterpolation, fc.constantFrom(25, 50, 75), ({ feedG, partitionPct }, rule, wanted) => {
        const streams = partedStreams(feedG, partitionPct);
        const whole = feedG.reduce((sum, g) => sum + g, 0);
        const over = feedG.reduce((sum, g, i) => sum + (g * (partitionPct[i] ?? 0)) / 100, 0);
        const partition = partitionOf(classesOf(streams), over / whole);
        const size = partitionSizeUm(partition, wanted, rule);
        fc.pre(size.determinable);
        expect(partitionAt(partition, rule)(numberOf(size)) ?? Number.NaN).toBeCloseTo(wanted, 5);
      }),
    ));

  test("where the curve falls with size it runs down between the two, by every rule", () =>
    fc.assert(
      fc.property(anyInterpolation, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (rule, share) => {
        const classes = classesOf(
          streamsOf("4000:10 2000:10 1000:10 pan:10", "4000:5 2000:3 1000:6 pan:1", "4000:5 2000:7 1000:4 pan:9"),
        );
        const partition = partitionOf(classes, 0.375);
        const [, falls, from] = partition;
        const sizeUm = (from?.sizeUm ?? 0) ** (1 - share) * (falls?.sizeUm ?? 0) ** share;
        const [high, low] = [numberOf(from!.toOversizePct), numberOf(falls!.toOversizePct)];
        expect(high).toBeGreaterThan(low);
        expect(partitionAt(partition, rule)(sizeUm) ?? Number.NaN).toBeCloseTo(high + share * (low - high), 6);
      }),
    ));
});
