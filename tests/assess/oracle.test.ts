import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Assessment, assess } from "../../src/assess.ts";
import type { Product } from "../../src/record/product.ts";
import { BARLEY } from "../run/hands.ts";

/**
 * The whole assessment by hand, in whole hundredths of a gram and fractions of them: nothing of the program is used.
 * Masses come coarsest first, the pan last.
 */
interface Weighed {
  readonly aperturesUm: readonly number[];
  readonly netHundredths: readonly number[];
  readonly chargeHundredths: number;
  readonly maxLossPct: number;
}

interface ByHand {
  readonly passing: readonly number[];
  readonly lossPct: number;
  readonly test: string;
  readonly d50Um: number | null;
}

/** Log-linear between the two sieves about 50 % passing; null beyond the sieves. */
function d50ByHand(aperturesUm: readonly number[], passing: readonly number[]): number | null {
  for (let i = aperturesUm.length - 1; i >= 0; i--) {
    const [um = 0, pct = 0] = [aperturesUm[i], passing[i]];
    if (pct === 50) return um;
    if (pct < 50) continue;
    const [finerUm, finerPct] = [aperturesUm[i + 1], passing[i + 1]];
    if (finerUm === undefined || finerPct === undefined) return null;
    return finerUm * (um / finerUm) ** ((50 - finerPct) / (pct - finerPct));
  }
  return null;
}

function byHand({ aperturesUm, netHundredths, chargeHundredths, maxLossPct }: Weighed): ByHand {
  const total = netHundredths.reduce((sum, net) => sum + net, 0);
  const passing = aperturesUm.map((_, i) => {
    const finer = netHundredths.slice(i + 1).reduce((sum, net) => sum + net, 0);
    return (100 * finer) / total;
  });
  const lossPct = (100 * (chargeHundredths - total)) / chargeHundredths;
  const test = Math.abs(lossPct) > maxLossPct ? "invalid" : "valid";
  return { passing, lossPct, test, d50Um: d50ByHand(aperturesUm, passing) };
}

const anyWeighed: fc.Arbitrary<Weighed> = fc
  .record({
    ratios: fc.array(fc.double({ min: 1.1, max: 3, noNaN: true }), { minLength: 2, maxLength: 9 }),
    masses: fc.array(fc.integer({ min: 0, max: 20_000 }), { minLength: 10, maxLength: 10 }),
    lostShare: fc.double({ min: -0.01, max: 0.01, noNaN: true }),
    maxLossPct: fc.constantFrom(0.2, 0.3, 0.5, 1),
  })
  .map(({ ratios, masses, lostShare, maxLossPct }) => {
    let um = 30;
    const aperturesUm = ratios.map((ratio) => {
      um *= ratio;
      return um;
    });
    const netHundredths = [...masses.slice(0, aperturesUm.length), masses.at(-1) ?? 0];
    const total = netHundredths.reduce((sum, net) => sum + net, 0);
    const chargeHundredths = Math.round(total * (1 + lostShare));
    return { aperturesUm: aperturesUm.toReversed(), netHundredths, chargeHundredths, maxLossPct };
  })
  .filter(({ netHundredths }) => netHundredths.reduce((sum, net) => sum + net, 0) > 100);

const productFor = ({ maxLossPct }: Weighed, change: Partial<Product> = {}): Product => ({
  ...BARLEY,
  ...change,
  method: { maxLossPct },
});

function assessed(weighed: Weighed, product: Product): Assessment {
  const { aperturesUm, netHundredths, chargeHundredths } = weighed;
  const fractions = [...aperturesUm, 0].map((apertureUm, i) => {
    const fullG = (40_000 + (netHundredths[i] ?? 0)) / 100;
    return { apertureUm, emptyG: 400, fullG, netG: (netHundredths[i] ?? 0) / 100 };
  });
  const what = { fractions, chargeG: chargeHundredths / 100, washedG: null };
  const found = assess(what, product, { readabilityG: 0.01 });
  if (!found.ok) throw new Error(found.reason);
  return found.value;
}

/** How near a loss lies to its limit, in %; there the last bits of binary arithmetic are allowed to decide nothing. */
const onItsLimit = ({ lossPct }: ByHand, { maxLossPct }: Weighed) => Math.abs(Math.abs(lossPct) - maxLossPct) < 1e-6;

describe("whatever was weighed, by hand and by the program", () => {
  test("passing %, loss and the verdict on the test agree", () => {
    fc.assert(
      fc.property(anyWeighed, (weighed) => {
        const hand = byHand(weighed);
        const { fractions, lossPct, verdict } = assessed(weighed, productFor(weighed));
        const sieves = fractions.slice(0, -1).map((f) => f.passingPct);
        for (const [i, pct] of sieves.entries()) expect(pct).toBeCloseTo(hand.passing[i] ?? Number.NaN, 9);
        expect(lossPct).toBeCloseTo(hand.lossPct, 9);
        if (!onItsLimit(hand, weighed)) expect(verdict.test).toBe(hand.test);
      }),
    );
  });

  test("the median agrees, and is refused where the sieves do not reach it", () => {
    fc.assert(
      fc.property(anyWeighed, (weighed) => {
        const hand = byHand(weighed);
        const d50 = assessed(weighed, productFor(weighed)).percentilesUm["50"];
        expect(d50?.determinable).toBe(hand.d50Um !== null);
        if (d50?.determinable && hand.d50Um !== null) expect(d50.value / hand.d50Um).toBeCloseTo(1, 9);
      }),
    );
  });

  test("the verdict on the product agrees: every limit inclusive, none judged on an invalid test", () => {
    const bounds = fc.array(fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 40, max: 100 })), {
      minLength: 10,
      maxLength: 10,
    });
    fc.assert(
      fc.property(anyWeighed, bounds, (weighed, limits) => {
        const hand = byHand(weighed);
        if (onItsLimit(hand, weighed)) return;
        const envelope = weighed.aperturesUm.map((apertureUm, i) => {
          const [low = 0, high = 100] = limits[i] ?? [];
          return { apertureUm, passingPct: { min: Math.min(low, high), max: Math.max(low, high) } };
        });
        const edges = envelope.flatMap(({ passingPct }) => [passingPct.min, passingPct.max]);
        const sharp = hand.passing.some((pct) => edges.some((edge) => pct !== edge && Math.abs(pct - edge) < 1e-9));
        if (sharp) return;
        const missed = envelope.some(({ passingPct }, i) => {
          const pct = hand.passing[i] ?? 0;
          return pct < passingPct.min || pct > passingPct.max;
        });
        const expected = hand.test === "invalid" ? "not judged" : missed ? "fail" : "pass";
        expect(assessed(weighed, productFor(weighed, { envelope })).verdict.product).toBe(expected);
      }),
      { numRuns: 300 },
    );
  });

  test("the numbers tell of the same stack: coarser and passing make 100, what is retained adds up", () => {
    fc.assert(
      fc.property(anyWeighed, (weighed) => {
        const { fractions } = assessed(weighed, productFor(weighed));
        let coarser = 0;
        for (const f of fractions.slice(0, -1)) {
          coarser += f.retainedPct;
          expect(f.coarserPct).toBeCloseTo(coarser, 9);
          expect(f.coarserPct + f.passingPct).toBeCloseTo(100, 9);
        }
      }),
    );
  });
});
