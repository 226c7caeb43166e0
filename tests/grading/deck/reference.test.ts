import { describe, expect, test } from "vitest";
import { deckPerformance } from "../../../src/grading/deck/deckPerformance.ts";
import { expectNear } from "../near.ts";
import { fraction, gradedOf, numberOf, reasonOf } from "../stack.ts";
import written from "./fixtures/decks.json" with { type: "json" };

// lstsq and brentq both work to the last digits of a double; what remains is rounding.
const ROUNDING = 1e-10;
// PCHIP is cubic: near a flat end the searched size is looser than the height.
const CUBIC = 1e-9;

const gradedStream = (apertures: readonly number[], netG: readonly number[]) =>
  gradedOf(netG.map((net, i) => fraction(apertures[i] ?? 0, net)));

type Reference = (typeof written.decks)[number];

const performance = (deck: Reference, interpolation: "log-linear" | "monotone", cutUm?: number) => {
  const [feed, oversize, undersize] = [deck.netG.feed, deck.netG.oversize, deck.netG.undersize].map((netG) =>
    gradedStream(deck.apertureUm, netG),
  );
  return deckPerformance(feed!, oversize!, undersize!, { interpolation, ...(cutUm === undefined ? {} : { cutUm }) });
};

test("the reference comes from scipy 1.10.1 and holds four decks", () => {
  expect(written.made).toEqual({ by: "make_decks.py", scipy: "1.10.1", numpy: "1.24.2" });
  expect(written.decks).toHaveLength(4);
});

describe.each(written.decks)("$name", (deck) => {
  const found = performance(deck, "log-linear");

  test("share of oversize and its standard error are those of numpy's lstsq", () => {
    expectNear(numberOf(found.oversizeShare), deck.oversizeShare, ROUNDING);
    expectNear(found.balance!.shareError!, deck.shareError, ROUNDING);
  });

  test("partition numbers are those of numpy", () => {
    const ours = found.partition.map((each) => numberOf(each.toOversizePct));
    expect(ours).toHaveLength(deck.partitionPct.length);
    for (const [i, pct] of ours.entries()) expectNear(pct, deck.partitionPct[i]!, ROUNDING);
  });

  test.each(["log-linear", "monotone"] as const)("d25, d50, d75 and what follows, %s, are those of scipy", (kind) => {
    const by = performance(deck, kind);
    const { 25: fine, 50: cut, 75: coarse } = deck.sizesUm[kind];
    const tolerance = kind === "monotone" ? CUBIC : ROUNDING;
    expectNear(numberOf(by.d25Um), fine, tolerance);
    expectNear(numberOf(by.cutSizeUm), cut, tolerance);
    expectNear(numberOf(by.d75Um), coarse, tolerance);
    expectNear(numberOf(by.imperfection), (coarse - fine) / 2 / cut, 10 * tolerance);
    expectNear(numberOf(by.sharpness), fine / coarse, 10 * tolerance);
  });

  test.each(Object.entries(deck.recoveries))(
    "recoveries at %s um are those of numpy, or refused above 1",
    (um, made) => {
      const { oversizeRecovery, undersizeRecovery, ofProducts } = performance(deck, "log-linear", Number(um));
      for (const [ours, theirs] of [
        [oversizeRecovery, made.oversize],
        [undersizeRecovery, made.undersize],
      ] as const) {
        if (theirs <= 1) expectNear(numberOf(ours), theirs, ROUNDING);
        else
          expect(reasonOf(ours)).toMatch(/^the (over|under)size would hold 10\d(\.\d)? % of what the feed has of it/);
      }
      expect(numberOf(ofProducts.overallEffectiveness)).toBeLessThan(1);
    },
  );
});

test("some of these sampled streams do not balance at the ends of the stack, so refusals are really met", () => {
  const figures = written.decks.flatMap(({ recoveries }) => Object.values(recoveries));
  expect(figures.filter(({ oversize, undersize }) => oversize > 1 || undersize > 1).length).toBeGreaterThan(2);
});

test("an overloaded deck lets more fines over than a dry one", () => {
  const [dry, loaded] = [written.decks[0]!, written.decks[1]!].map((deck) => performance(deck, "log-linear", 2000));
  expect(numberOf(loaded!.undersizeRecovery)).toBeLessThan(numberOf(dry!.undersizeRecovery));
  expect(numberOf(loaded!.imperfection)).toBeGreaterThan(numberOf(dry!.imperfection));
  expect(numberOf(loaded!.cutSizeUm)).toBeLessThan(numberOf(dry!.cutSizeUm));
});
