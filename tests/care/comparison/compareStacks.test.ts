import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compareStacks, type PairedRuns } from "../../../src/care/comparison/compareStacks.ts";
import { numberOf } from "../../grading/stack.ts";
import { chanceFrom } from "../simulation/chance.ts";
import { MATERIALS } from "../simulation/materials.ts";
import { onBoth } from "../simulation/sieving.ts";

const run = (text: string) =>
  text.split(" ").map((item) => {
    const [apertureUm = 0, passingPct = 0] = item.split(":").map(Number);
    return { apertureUm, passingPct };
  });
const pair = (working: string, master: string): PairedRuns => ({ working: run(working), master: run(master) });

/** The same river sand on both stacks; the working one has its 500 um sieve off by a part of its aperture. */
function portions(pairs: number, error: number, seed: number): PairedRuns[] {
  const [sand] = MATERIALS;
  const off = sand.stackUm.map((um) => (um === 500 ? um * (1 + error) : um));
  return onBoth(sand, off, sand.stackUm, pairs, chanceFrom(seed));
}

describe("paired runs", () => {
  const three = [
    pair("1000:90 500:41", "1000:90 500:40"),
    pair("1000:91 500:42", "1000:90 500:40"),
    pair("1000:89 500:43", "1000:90 500:40"),
  ];

  test("give mean, deviation and range by hand", () => {
    const [coarse, fine] = compareStacks(three).apertures;
    expect(fine).toMatchObject({ apertureUm: 500, pairs: 3, meanPct: 2, deviationPct: 1 });
    // t of 1 - 0.05/2/2 with 2 degrees of freedom is 6.2053; over root three 3.5827.
    expect((fine?.toPct ?? 0) - 2).toBeCloseTo(3.5827, 3);
    expect(2 - (fine?.fromPct ?? 0)).toBeCloseTo(3.5827, 3);
    expect(fine?.p).toBeCloseTo(0.0742, 4);
    expect(coarse).toMatchObject({ apertureUm: 1000, meanPct: 0, p: 1, biased: false });
  });

  test("say over how many apertures they hold, and what would hide", () => {
    const compared = compareStacks(three);
    expect(compared.notes[1]).toMatch(/all 2 apertures together: 5 %/);
    expect(compared.apertures[1]?.text).toMatch(
      /^500 um: \+2.00 % \(-1.58 % to \+5.58 %\), too few pairs to tell; less than/,
    );
    expect(compared.biased).toBe(false);
  });

  test("too few to have shown the difference asked about are no sign that there is none", () => {
    const scattered = compareStacks(three, { differencePct: 1 });
    expect(scattered).toMatchObject({ biased: false, tooFew: true });
    expect(scattered.apertures.map(({ tooFew }) => tooFew)).toEqual([true, true]);
    expect(compareStacks(three, { differencePct: 50 }).tooFew).toBe(false);
    const two = [pair("500:40", "500:40"), pair("500:41", "500:41")];
    expect(compareStacks(two).tooFew).toBe(true);
  });

  test("of one portion alone show nothing, and say so", () => {
    const [only] = compareStacks([pair("500:44", "500:40")]).apertures;
    expect(only).toMatchObject({ meanPct: 4, fromPct: null, p: null, biased: false });
    expect(only?.text).toMatch(/single pair, which shows nothing/);
    expect(only?.smallestSeenPct.determinable).toBe(false);
  });

  test("leave out what only one stack has", () =>
    expect(compareStacks([pair("1000:90 500:41", "500:40")]).apertures.map((a) => a.apertureUm)).toEqual([500]));

  test("of the same figures throughout are no bias; of the same difference throughout are one", () => {
    const same = compareStacks([pair("500:40", "500:40"), pair("500:41", "500:41")]);
    expect(same.biased).toBe(false);
    expect(compareStacks([pair("500:41", "500:40"), pair("500:42", "500:41")]).biased).toBe(true);
  });

  test("turn their signs when the stacks are exchanged", () =>
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 100 }), fc.integer({ min: 0, max: 100 })), {
          minLength: 2,
          maxLength: 9,
        }),
        (all) => {
          const there = all.map(([w, m]) => pair(`500:${w}`, `500:${m}`));
          const back = all.map(([w, m]) => pair(`500:${m}`, `500:${w}`));
          const [a, b] = [compareStacks(there).apertures[0], compareStacks(back).apertures[0]];
          expect(a?.meanPct).toBeCloseTo(-(b?.meanPct ?? 0), 9);
          expect(a?.biased).toBe(b?.biased);
        },
      ),
      { numRuns: 40 },
    ));
});

describe("sand sieved on a working and a master stack", () => {
  test("shows the one sieve that is 4 % too wide, and no other", () => {
    const { apertures } = compareStacks(portions(8, 0.04, 21));
    expect(apertures.filter((a) => a.biased).map((a) => a.apertureUm)).toEqual([500]);
    expect(apertures.find((a) => a.apertureUm === 500)?.text).toMatch(/passes \+\d.*: biased/);
  });

  test("cries wolf over stacks that are alike in about 5 % of 150 comparisons, or less", () => {
    const wolves = Array.from({ length: 150 }, (_, k) => compareStacks(portions(6, 0, 1000 + k)).biased);
    expect(wolves.filter(Boolean).length / 150).toBeLessThan(0.09);
  });

  test("says honestly how many pairs would show 1 %", () => {
    const [, , , at500] = compareStacks(portions(40, 0, 5)).apertures;
    const needed = numberOf(at500?.pairsToSee ?? { determinable: false, reason: "missing" });
    expect(needed).toBeGreaterThan(2);
    expect(needed).toBeLessThan(40);
  });
});
