import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { partitionOf } from "../../../src/grading/deck/partition.ts";
import { partitionSizeUm } from "../../../src/grading/deck/partitionSize.ts";
import { normalCdf } from "../../../src/grading/normal.ts";
import { expectNear } from "../near.ts";
import { anyInterpolation, assumptionsOf, numberOf, reasonOf } from "../stack.ts";
import { anyDeck, classesOf, DECK_B_SHARE, deckB, PARTITION_PCT, partedStreams, STACK } from "./streams.ts";

const partitionFrom = (partitionPct: readonly number[], feedG: readonly number[] = partitionPct.map(() => 100)) => {
  const share = feedG.reduce((sum, g, i) => sum + g * partitionPct[i]!, 0) / feedG.reduce((sum, g) => sum + g, 0) / 100;
  return partitionOf(classesOf(partedStreams(feedG, partitionPct)), share);
};
const deckPartition = partitionOf(classesOf(deckB), DECK_B_SHARE);
const middleUm = (i: number) => Math.sqrt(STACK[i]! * STACK[i - 1]!);

test("worked by hand: 20 % at 2.37 mm and 60 % at 3.35 mm give 50 % at three quarters of the way in ln size", () => {
  const [low, high] = [middleUm(4), middleUm(3)];
  expectNear(numberOf(partitionSizeUm(deckPartition, 50, "log-linear")), low * (high / low) ** 0.75, 1e-12);
  expectNear(numberOf(partitionSizeUm(deckPartition, 50, "linear")), low + 0.75 * (high - low), 1e-12);
});

test("a partition number of a class is reached at the middle of that class, by every interpolation", () =>
  fc.assert(
    fc.property(anyInterpolation, fc.integer({ min: 1, max: 5 }), (interpolation, i) =>
      expectNear(numberOf(partitionSizeUm(deckPartition, PARTITION_PCT[i]!, interpolation)), middleUm(i), 1e-9),
    ),
  ));

test("log-probability reads a log-normal partition curve exactly", () => {
  const at = (i: number) => (i === 0 ? Math.sqrt(8000 * 11200) : i === 6 ? Math.sqrt(500 * 1000) : middleUm(i));
  const curve = STACK.map((_, i) => 100 * normalCdf(Math.log(at(i) / 2500) / 0.4));
  expectNear(numberOf(partitionSizeUm(partitionFrom(curve), 50, "log-probability")), 2500, 1e-9);
  expectNear(
    numberOf(partitionSizeUm(partitionFrom(curve), 75, "log-probability")),
    2500 * Math.exp(0.4 * 0.6744897501960817),
    1e-9,
  );
});

test("d25, d50 and d75 stand in this order, whatever rising curve and interpolation", () =>
  fc.assert(
    fc.property(anyDeck, anyInterpolation, ({ feedG, partitionPct }, interpolation) => {
      const partition = partitionFrom(partitionPct, feedG);
      const sizes = [25, 50, 75].map((pct) => partitionSizeUm(partition, pct, interpolation));
      const known = sizes.flatMap((size) => (size.determinable ? [size.value] : []));
      expect(known).toEqual(known.toSorted((a, b) => a - b));
      expect(known.every((um) => um > 700 && um < 9500)).toBe(true);
    }),
  ));

test("scaling all sieves scales the size", () => {
  const fine = partedStreams(
    [100, 100, 100, 100, 100, 100, 100],
    PARTITION_PCT,
    STACK.map((um) => um / 8),
  );
  const share = PARTITION_PCT.reduce((sum, pct) => sum + pct, 0) / 700;
  const size = partitionSizeUm(partitionOf(classesOf(fine), share), 50, "log-linear");
  expectNear(numberOf(size), numberOf(partitionSizeUm(partitionFrom(PARTITION_PCT), 50, "log-linear")) / 8, 1e-12);
});

describe("tells what the size rests on", () => {
  test("nothing inside the stack", () =>
    expect(assumptionsOf(partitionSizeUm(deckPartition, 50, "log-linear"))).toEqual([]));

  test("the assumed end of the coarsest class", () => {
    const size = partitionSizeUm(partitionFrom([70, 40, 30, 20, 10, 5, 1]), 50, "log-linear");
    expect(assumptionsOf(size)).toEqual(["what lies on the 8.00 mm sieve is taken to pass 11.2 mm"]);
  });

  test("the assumed end of the pan", () => {
    const size = partitionSizeUm(partitionFrom([99, 98, 95, 90, 80, 70, 20]), 50, "log-linear");
    expect(assumptionsOf(size)).toEqual(["what lies in the pan is taken to be coarser than 500 um"]);
  });

  test("a step from 0 or to 100 % on a probability scale", () => {
    const size = partitionSizeUm(partitionFrom([100, 100, 100, 100, 20, 0, 0]), 50, "log-probability");
    expect(assumptionsOf(size)).toEqual(["read log-linearly: 0 and 100 % have no place on a probability scale"]);
  });
});

describe("refuses in words", () => {
  const why = (...partitionPct: number[]) => reasonOf(partitionSizeUm(partitionFrom(partitionPct), 50, "log-linear"));

  test("a curve that stays above", () =>
    expect(why(99, 98, 97, 90, 85, 80, 60)).toBe("below 707 um: even of the finest class 60 % go over"));

  test("a curve that stays below", () =>
    expect(why(40, 30, 20, 10, 5, 2, 1)).toBe("above 9.47 mm: even of the coarsest class only 40 % go over"));

  test("a curve that passes 50 % three times", () =>
    expect(why(90, 80, 40, 60, 20, 10, 5)).toBe("the partition curve passes 50 % 3 times, so that size is not one"));

  test("a curve that falls with size", () =>
    expect(why(5, 10, 20, 40, 60, 80, 90)).toBe(
      "finer classes go over more than coarser ones: were oversize and undersize exchanged?",
    ));

  test("no partition numbers", () =>
    expect(reasonOf(partitionSizeUm([], 50, "linear"))).toBe("no class has a partition number"));
});

test("a class without a partition number is passed over, its neighbours carry the curve", () => {
  const streams = partedStreams([100, 100, 100, 0, 100, 100, 100], PARTITION_PCT);
  const partition = partitionOf(classesOf(streams), 313 / 600);
  const [low, high] = [middleUm(4), middleUm(2)];
  expectNear(numberOf(partitionSizeUm(partition, 50, "log-linear")), low * (high / low) ** (30 / 70), 1e-12);
});
