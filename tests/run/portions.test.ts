import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { DraftSchema } from "../../src/record/draft.ts";
import { portionOf, withAnotherPortion, withoutLastPortion } from "../../src/run/portions.ts";
import { EMPTY_G, FULL_G, Hands, NET_G } from "./hands.ts";

const added = (hands: Hands): Hands => hands.does({ type: "portionAdded", at: hands.moment() });
/** The same fractions again and a little more, so that no mass is like the one before. */
const SECOND_G = FULL_G.map((full, i) => Math.round((full + 0.1 * (i + 1)) * 100) / 100);
const inTwo = () =>
  added(new Hands().setsOut("602.5").weighs(EMPTY_G).shakes().weighs(FULL_G)).shakes().weighs(SECOND_G);

describe("another portion of the charge", () => {
  test("empties the sieves, keeps what each held, and goes back on the shaker", () => {
    const { draft } = added(new Hands().tests()).run;
    expect(draft.stage).toBe("shake");
    expect(draft.weighings.map((w) => w.fullG)).toEqual(EMPTY_G.map(() => null));
    expect(draft.weighings.map((w) => w.earlierFullG)).toEqual(FULL_G.map((full) => [full]));
    expect(draft.weighings.map((w) => w.emptyG)).toEqual(EMPTY_G);
  });

  test("is shaken by itself; how the one before was shaken is kept", () => {
    const hands = new Hands().tests();
    const { shaking } = hands.run.draft;
    const { draft } = added(hands).run;
    expect(draft.shaking).toEqual({ plannedS: 600, startedAt: null, endedAt: null, skipped: null });
    expect(draft.earlierShaking).toEqual([shaking]);
  });

  test("is counted on the trail: portion 2, then 3", () => {
    const hands = added(new Hands().setsOut("602.5").weighs(EMPTY_G).shakes().weighs(FULL_G));
    expect(hands.run.draft.trail.at(-1)).toMatchObject({ field: "portion", from: 1, to: 2 });
    expect(portionOf(hands.run.draft)).toBe(2);
    added(hands.shakes().weighs(SECOND_G));
    expect(hands.run.draft.trail.at(-1)).toMatchObject({ field: "portion", from: 2, to: 3 });
  });

  test("is refused before every sieve and the pan of this one is weighed", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G).shakes().weighs(FULL_G.slice(0, 5));
    expect(added(hands).run.message).toBe("weigh every sieve and the pan of this portion first");
    expect(hands.run.draft.stage).toBe("weigh full");
  });

  test("adds what each sieve held to what it held before: the assessment sees the sums", () => {
    const { draft } = inTwo().run;
    expect(draft.stage).toBe("result");
    const assessed = assessTest(draft);
    const nets = NET_G.map((net, i) => Math.round((2 * net + 0.1 * (i + 1)) * 100) / 100);
    expect(assessed.ok && assessed.value.fractions.map((f) => f.netG)).toEqual(nets);
    expect(assessed.ok && assessed.value.recoveredG).toBe(601.9);
    expect(assessed.ok && assessed.value.lossG).toBe(0.6);
  });

  test("of which no sum is doubted as more than the charge, but one beyond it is", () => {
    const hands = added(new Hands().setsOut("602.5").weighs(EMPTY_G).shakes().weighs(FULL_G)).shakes();
    hands.weighs(SECOND_G.slice(0, 5));
    expect(hands.run.doubt).toBeNull();
    expect(hands.enters("370").run.doubt?.text).toContain("more than the charge of 602.5 g");
  });
});

describe("a portion taken back", () => {
  test("has the masses and the shaking of the one before stand again, on their page", () => {
    const hands = new Hands().tests();
    const { weighings, shaking } = hands.run.draft;
    added(hands).undoes();
    expect(hands.run.draft.weighings).toEqual(weighings);
    expect(hands.run.draft.shaking).toEqual(shaking);
    expect(hands.run.draft.stage).toBe("weigh full");
    expect(hands.run.draft.trail.at(-1)).toMatchObject({ field: "portion", from: 2, to: 1, undo: true });
  });

  test("entry by entry goes back over the shaker and the masses of both portions to nothing", () => {
    const hands = inTwo();
    const entries = hands.run.draft.trail.length;
    for (let i = 0; i < entries; i++) {
      hands.undoes();
      expect(DraftSchema.safeParse(hands.run.draft).success).toBe(true);
    }
    expect(hands.run.draft.weighings).toEqual(new Hands().run.draft.weighings);
    expect(hands.run.draft.earlierShaking).toBeUndefined();
    expect(hands.undoes().run.message).toBe("nothing to take back");
  });
});

test("whatever was weighed in however many portions: one more and back again changes nothing", () => {
  const mass = fc.integer({ min: 0, max: 100_000 }).map((n) => n / 100);
  const anyPortions = fc.array(fc.array(mass, { minLength: 6, maxLength: 6 }), { minLength: 1, maxLength: 4 });
  fc.assert(
    fc.property(anyPortions, (portions) => {
      let { draft } = new Hands().setsOut().weighs(EMPTY_G).run;
      for (const [i, fulls] of portions.entries()) {
        if (i > 0) draft = withAnotherPortion(draft);
        draft = { ...draft, weighings: draft.weighings.map((w, row) => ({ ...w, fullG: fulls[row] ?? 0 })) };
      }
      const settled = { ...draft, checkMinute: null };
      expect(portionOf(draft)).toBe(portions.length);
      expect(withoutLastPortion(withAnotherPortion(draft))).toEqual(settled);
    }),
  );
});
