import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import type { Notice } from "../../src/assess.ts";
import type { Product } from "../../src/record/product.ts";
import { EMPTY_G, FILTER_SAND, FULL_G, Hands, NET_G, SETTING } from "./hands.ts";

/** ASTM C136 (seen): 7 kg/m2 on 203 mm frames is 199.5 g a sieve; end point 0.5 % of the charge a minute; loss 0.3 %. */
const BY_RULES: Product = {
  ...FILTER_SAND,
  method: {
    program: "V10",
    procedure: { ruleSet: "astm-c136-2020", frameMm: 203, endPoint: { required: true } },
  },
};

const hundredth = (grams: number) => Math.round(grams * 100) / 100;
const fullWith = (nets: readonly number[]) => EMPTY_G.map((empty, row) => hundredth(empty + (nets[row] ?? 0)));

/** Up to the full sieves; the charge is more than the sieves carry for all that is known, so its doubt is accepted. */
const atFull = (chargeG = "300.2") => new Hands(SETTING, BY_RULES).setsOut(chargeG).enter().weighs(EMPTY_G).shakes();
/** Every mass, each accepted though it is doubted. */
function weighsAll(hands: Hands, fulls: readonly number[]): Hands {
  for (const grams of fulls) {
    hands.enters(String(grams));
    if (hands.run.doubt) hands.enter();
  }
  return hands;
}
const minute = (hands: Hands) => hands.does({ type: "checkMinuteStarted", at: hands.moment() });

function verdicts({ run }: Hands): string {
  const assessed = assessTest(run.draft);
  return assessed.ok ? `${assessed.value.verdict.test}, ${assessed.value.verdict.product}` : assessed.reason;
}
function noticesOf({ run }: Hands): readonly Notice[] {
  const assessed = assessTest(run.draft);
  return assessed.ok ? assessed.value.notices.filter((notice) => notice.severity !== "note") : [];
}

describe("shaking cut short", () => {
  const cut = (product: Product) => {
    const hands = new Hands(SETTING, product).setsOut();
    if (hands.run.doubt) hands.enter();
    hands.weighs(EMPTY_G).does({ type: "shakingStarted", at: hands.moment() });
    return weighsAll(hands.does({ type: "shakingSkipped", reason: "hurry", at: hands.moment() }), FULL_G);
  };

  test("leaves no test valid, whatever its masses", () => {
    const hands = cut(FILTER_SAND);
    expect(verdicts(hands)).toBe("invalid, not judged");
    expect(noticesOf(hands)[0]).toMatchObject({ id: "program-deviation", severity: "invalidates" });
  });

  test("is made good by a check minute that proves the end point", () => {
    const hands = cut(BY_RULES);
    expect(verdicts(hands)).toBe("invalid, not judged");
    weighsAll(minute(hands), fullWith([5.7, 56.4, 112.25, 92.2, 28.8, 4.55]));
    expect(verdicts(hands)).toBe("valid, pass");
    expect(noticesOf(hands)).toMatchObject([{ id: "program-deviation", severity: "warning" }]);
  });

  test("passed over altogether leaves the test not checked until it is noted how long the shaker ran", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G);
    weighsAll(hands.does({ type: "shakingSkipped", reason: "other shaker", at: hands.moment() }), FULL_G);
    expect(verdicts(hands)).toBe("not checked, pass");
    hands.does({ type: "ranOtherwise", ran: { durationS: 600 }, at: hands.moment() });
    expect(verdicts(hands)).toBe("valid, pass");
  });
});

describe("a test by ASTM C136 with a required end point", () => {
  test("without a check minute is not checked, and says what is to be done", () => {
    const hands = weighsAll(atFull(), FULL_G);
    expect(hands.run.draft.stage).toBe("result");
    expect(verdicts(hands)).toBe("not checked, pass");
    expect(noticesOf(hands)).toMatchObject([
      { id: "end-point-unknown", severity: "warning", text: "the end point was not checked" },
    ]);
    expect(noticesOf(hands)[0]?.remedy).toContain("each loaded sieve alone for 1 min");
  });

  test("with a minute in which every sieve let at most 0.5 % of the charge through is valid", () => {
    const hands = minute(weighsAll(atFull(), FULL_G));
    weighsAll(hands, fullWith([5.7, 56.4, 112.25, 92.2, 28.8, 4.55]));
    expect(verdicts(hands)).toBe("valid, pass");
    expect(noticesOf(hands)).toEqual([]);
  });

  test("with a minute that one sieve failed is invalid, though its masses close: not judged, and the sieve is named", () => {
    const hands = minute(weighsAll(atFull(), FULL_G));
    weighsAll(hands, fullWith([5.71, 56.46, 108.3, 96.18, 28.75, 4.5]));
    expect(verdicts(hands)).toBe("invalid, not judged");
    expect(noticesOf(hands)).toMatchObject([
      {
        id: "end-point-not-reached",
        severity: "invalidates",
        text: "the 710 um sieve still let 4.00 g (1.33 %) through in the check",
        found: "1.33 %",
        limit: "0.5 %",
      },
    ]);
  });

  test("failed once is proven by a second minute", () => {
    const hands = minute(weighsAll(atFull(), FULL_G));
    weighsAll(hands, fullWith([5.71, 56.46, 108.3, 96.18, 28.75, 4.5]));
    weighsAll(minute(hands), fullWith([5.71, 56.46, 108.1, 96.3, 28.83, 4.5]));
    expect(verdicts(hands)).toBe("valid, pass");
    expect(hands.undoes().run.draft.stage).toBe("weigh full");
    expect(hands.run.draft.trail.filter((item) => item.field === "checkMinute")).toHaveLength(2);
  });

  test("in which not every loaded sieve was weighed again is not checked, and says which are missing", () => {
    const hands = minute(weighsAll(atFull(), FULL_G)).enters(String(hundredth((FULL_G[0] ?? 0) - 0.01)));
    expect(verdicts(hands)).toBe("not checked, pass");
    expect(noticesOf(hands)[0]?.text).toContain("not checked on the 1.00 mm sieve, the 710 um sieve");
  });
});

describe("an overloaded sieve", () => {
  const HEAVY = [5.71, 10.46, 210.3, 40.18, 28.75, 4.5];

  test("is doubted while it is weighed, and makes the test invalid if it stays", () => {
    const hands = atFull().weighs(fullWith(HEAVY).slice(0, 3));
    expect(hands.run.doubt?.text).toBe(
      "the 710 um sieve holds 210.3 g, a fair load is 199 g: sieve in portions (a on the result)",
    );
    weighsAll(hands.enter(), fullWith(HEAVY).slice(3));
    expect(verdicts(hands)).toBe("invalid, not judged");
    expect(noticesOf(hands)[0]).toMatchObject({ id: "sieve-overloaded", found: "210.3 g", limit: "199.5 g" });
    expect(noticesOf(hands)[0]?.remedy).toContain("sieve in two portions");
  });

  test("held by two portions is no overload: what counts is the most held at once, what is graded the sum", () => {
    const half = fullWith(HEAVY.map((net) => net / 2));
    const hands = weighsAll(atFull(), half);
    hands.does({ type: "portionAdded", at: hands.moment() }).shakes();
    weighsAll(hands, half);
    expect(noticesOf(hands).map((notice) => notice.id)).toEqual(["end-point-unknown"]);
    const assessed = assessTest(hands.run.draft);
    expect(assessed.ok && assessed.value.fractions.map((f) => f.netG)).toEqual(
      HEAVY.map((net) => hundredth(2 * hundredth(net / 2))),
    );
  });
});

describe("two digits swapped", () => {
  test.each([
    [1, 455.2, 452.5, "the 1.00 mm sieve full"],
    [2, 493.5, 439.5, "the 710 um sieve full"],
    [3, 459.13, 495.13, "the 500 um sieve full"],
  ])("in row %d, %d g typed as %d g: the notice of the loss or gain names %s", (row, meantG, typedG, place) => {
    const hands = weighsAll(atFull(), FULL_G.with(row, typedG));
    expect(verdicts(hands)).toBe("invalid, not judged");
    const notice = noticesOf(hands).find(({ id }) => id === "loss-high" || id === "gain-high");
    expect(notice?.id).toBe(typedG < meantG ? "loss-high" : "gain-high");
    expect(notice?.remedy).toMatch(/^look first for two digits swapped: /);
    expect(notice?.remedy).toContain(`${place}, ${meantG} g instead of ${typedG} g`);
  });

  test("and typed anew leave a test that closes, with both masses on the trail", () => {
    const hands = weighsAll(atFull(), FULL_G.with(1, 452.5));
    hands.does({ type: "stageChosen", stage: "weigh full" }).does({ type: "rowDown" }).enters("455.20");
    expect(verdicts(hands)).toBe("not checked, pass");
    expect(hands.run.draft.trail.at(-1)).toMatchObject({ apertureUm: 1000, from: 452.5, to: 455.2 });
  });

  test("in the charge are found as well", () => {
    const swapped = weighsAll(atFull("320.2"), fullWith(NET_G.map((net, row) => (row === 2 ? net + 2.2 : net))));
    expect(noticesOf(swapped)[0]?.remedy).toContain("the charge, 302.2 g instead of 320.2 g");
  });
});
