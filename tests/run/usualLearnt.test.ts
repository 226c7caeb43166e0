import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { DraftSchema } from "../../src/record/draft.ts";
import type { Usual } from "../../src/run/usual.ts";
import { EMPTY_G, FULL_G, Hands } from "./hands.ts";

const APERTURES_UM = [1400, 1000, 710, 500, 355, 0];
const USUAL: Usual = new Map(
  APERTURES_UM.map((um, row) => [um, { lowShare: 0, highShare: 1, emptyG: EMPTY_G[row] ?? 0 }]),
);

/** 300.20 g put on, typed as 301.70: a loss of 0.6 %, with every empty mass as it was last time. */
const mistypedCharge = (usual: Usual) =>
  new Hands().does({ type: "usualLearnt", usual }).setsOut("301.70").weighs(EMPTY_G).shakes().weighs(FULL_G).run.draft;

const lossNotice = (usual: Usual) => {
  const assessed = assessTest(mistypedCharge(usual));
  return assessed.ok ? assessed.value.notices.find((notice) => notice.id === "loss-high") : undefined;
};

describe("what each sieve usually weighs empty", () => {
  test("goes on record with the test that was compared with it", () => {
    const draft = mistypedCharge(USUAL);
    expect(draft.usualEmpty).toEqual(APERTURES_UM.map((apertureUm, row) => ({ apertureUm, emptyG: EMPTY_G[row] })));
    expect(DraftSchema.safeParse(draft).success).toBe(true);
  });

  test("clears the empty masses that agree with it: a loss is never explained by one of them", () => {
    expect(lossNotice(USUAL)).toBeDefined();
    expect(lossNotice(USUAL)?.remedy).not.toMatch(/empty, \d/);
  });

  test("nothing usual leaves no trace", () => {
    expect(mistypedCharge(new Map())).not.toHaveProperty("usualEmpty");
  });

  test("is that of the product in hand: another product brings its own", () => {
    const hands = new Hands().does({ type: "usualLearnt", usual: USUAL }).enters("TH-BAR");
    expect(hands.run.draft).not.toHaveProperty("usualEmpty");
  });
});
