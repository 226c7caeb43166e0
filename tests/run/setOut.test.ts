import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { DraftSchema } from "../../src/record/draft.ts";
import type { Product } from "../../src/record/product.ts";
import { pick } from "../../src/run/pick.ts";
import { fieldInHand, massInHand, type Setting, setOutFields } from "../../src/run/run.ts";
import { BARLEY, EMPTY_G, FILTER_SAND, FULL_G, Hands, SETTING } from "./hands.ts";

const WASHED: Product = { ...FILTER_SAND, code: "TH-MAS", method: { washed: true, maxLossPct: 0.3 } };
const MOIST: Product = {
  ...FILTER_SAND,
  code: "TH-WET",
  method: { maxLossPct: 0.3, procedure: { ruleSet: "own", moisture: { maxPct: 0.1 } } },
};
const ALL: Setting = { ...SETTING, products: [FILTER_SAND, BARLEY, WASHED, MOIST] };
const draftOf = ({ run }: Hands) => run.draft;
const last = ({ run }: Hands) => run.draft.trail.at(-1);

describe("a word picked from a list", () => {
  const LINES = ["Dryer 1", "Dryer 2", "Screen deck B", "3"];

  test.each([
    ["screen deck b", "Screen deck B"],
    ["2", "Dryer 2"],
    ["scr", "Screen deck B"],
    [" dryer 1 ", "Dryer 1"],
    ["3", "3"],
  ])("%j is %s: by name in any case, by number, by its beginning", (typed, name) => {
    expect(pick(typed, LINES, "line")).toEqual({ ok: true, value: name });
  });

  test.each([
    ["dry", 'line "dry" could be Dryer 1 or Dryer 2'],
    ["mill", 'no line is called "mill"'],
    ["9", 'no line is called "9"'],
    ["0", 'no line is called "0"'],
  ])("%j is refused in words", (typed, reason) => {
    expect(pick(typed, LINES, "line")).toEqual({ ok: false, reason });
  });

  test("from an empty list is any word", () => {
    expect(pick(" Mill 7 ", [], "line")).toEqual({ ok: true, value: "Mill 7" });
  });
});

describe("the fields that are asked", () => {
  test("are product, lot, line, sampling point and charge", () => {
    expect(setOutFields(BARLEY)).toEqual(["product", "lot", "line", "samplingPoint", "chargeG"]);
  });

  test("for a washed product the dry mass after washing too, after the charge", () => {
    expect(setOutFields(WASHED).slice(-2)).toEqual(["chargeG", "washedG"]);
  });

  test("for a product with a limit of moisture the two masses of that, before the charge", () => {
    expect(setOutFields(MOIST).slice(-3)).toEqual(["moistG", "dryG", "chargeG"]);
  });

  test("take digits only where a mass is asked", () => {
    const hands = new Hands(ALL, MOIST);
    const asked = setOutFields(MOIST).map(() => {
      const field = [fieldInHand(hands.run), massInHand(hands.run)];
      hands.enters(massInHand(hands.run) ? "300" : "");
      return field;
    });
    expect(asked).toEqual([
      ["product", false],
      ["lot", false],
      ["line", false],
      ["samplingPoint", false],
      ["moistG", true],
      ["dryG", true],
      ["chargeG", true],
    ]);
  });
});

describe("moisture and washing", () => {
  test("masses go into the draft and on the trail", () => {
    const hands = new Hands(ALL, MOIST).enter(4).enters("52.6").enters("52.5").enters("300.2");
    expect(draftOf(hands)).toMatchObject({ moistG: 52.6, dryG: 52.5, chargeG: 300.2, stage: "weigh empty" });
    expect(draftOf(hands).trail.map((item) => item.field)).toEqual(setOutFields(MOIST));
    expect(DraftSchema.safeParse(draftOf(hands)).success).toBe(true);
  });

  test("left empty were not measured: the test goes on without them", () => {
    const hands = new Hands(ALL, MOIST).enter(4).enter(2).enters("300.2");
    expect(draftOf(hands).stage).toBe("weigh empty");
    expect(draftOf(hands).moistG ?? null).toBeNull();
    expect(draftOf(hands).trail.map((item) => item.field)).not.toContain("moistG");
  });

  test("more dry than moist is refused, and so is more washed than put on", () => {
    expect(new Hands(ALL, MOIST).enter(4).enters("52.5").enters("52.6").run.message).toBe(
      "52.6 g is more than the 52.5 g before",
    );
    const washing = new Hands(ALL, WASHED).setsOut("300.2").enters("300.3");
    expect(washing.run.message).toBe("300.3 g is more than the 300.2 g before");
    expect(washing.enters("300.2").run.message).not.toBeNull();
  });

  test.each([
    ["moistG", "a moist mass is more than 0 g"],
    ["dryG", "a dry mass is more than 0 g"],
    ["chargeG", "a charge is more than 0 g"],
  ])("a %s of 0 is refused by its own name", (field, message) => {
    const hands = new Hands(ALL, MOIST);
    while (fieldInHand(hands.run) !== field) hands.enter();
    expect(hands.enters("0").run.message).toBe(message);
  });

  test("a washed test closes against the mass after washing", () => {
    const hands = new Hands(ALL, WASHED).setsOut("320").enters("300.2").weighs(EMPTY_G).shakes().weighs(FULL_G);
    const assessed = assessTest(draftOf(hands));
    expect(draftOf(hands)).toMatchObject({ chargeG: 320, washedG: 300.2 });
    expect(assessed.ok && assessed.value.lossG).toBe(0.3);
    expect(assessed.ok && assessed.value.verdict.test).toBe("valid");
  });
});

describe("what stood before", () => {
  test("is null for a word taken as it stood, and that word where another is typed", () => {
    expect(last(new Hands().enter(2))).toMatchObject({ field: "lot", from: null, to: "4471-B" });
    expect(last(new Hands().enter().enters("4472-A"))).toMatchObject({ field: "lot", from: "4471-B", to: "4472-A" });
  });

  test("is what was accepted last when the field is taken again", () => {
    const hands = new Hands().enter().enters("4472-A").does({ type: "rowUp" });
    expect(last(hands.enters("4473-C"))).toMatchObject({ from: "4472-A", to: "4473-C" });
    expect(last(hands.does({ type: "rowUp" }).enter())).toMatchObject({ from: "4473-C", to: "4473-C" });
  });
});

describe("another product", () => {
  test("brings its own program and stack, and the words of its own last test", () => {
    const hands = new Hands().enters("th-bar");
    expect(draftOf(hands)).toMatchObject({
      program: null,
      shaking: { plannedS: 0 },
      lot: "M2-7",
      line: "Screen deck B",
    });
    expect(last(hands)).toMatchObject({ field: "product", from: "TH-0510 rev 3", to: "TH-BAR rev 1" });
  });

  test("keeps the words that stand where nothing is known of its last test", () => {
    expect(draftOf(new Hands(ALL).enters("TH-MAS"))).toMatchObject({ lot: "4471-B", line: "Dryer 1" });
  });

  test("does not inherit masses that it does not ask for: a washed mass would make it a washed test", () => {
    const hands = new Hands(ALL, WASHED).setsOut("320").enters("300.2");
    hands.does({ type: "stageChosen", stage: "set out" }).enters("TH-0510").enter(3).enters("300.2");
    expect(draftOf(hands).washedG ?? null).toBeNull();
    hands.weighs(EMPTY_G).shakes().weighs(FULL_G);
    const assessed = assessTest(draftOf(hands));
    expect(assessed.ok && assessed.value.fractions.at(-1)?.retainedPct).toBeCloseTo(450 / 299.9, 10);
  });

  test("keeps the masses that both ask for", () => {
    const hands = new Hands(ALL, MOIST).enter(4).enters("52.6").enters("52.5");
    const wetter: Product = { ...MOIST, code: "TH-WT2" };
    hands.run = { ...hands.run, setting: { ...ALL, products: [...ALL.products, wetter] } };
    hands.does({ type: "stageChosen", stage: "set out" }).enters("TH-WT2");
    expect(draftOf(hands)).toMatchObject({ product: { code: "TH-WT2" }, moistG: 52.6, dryG: 52.5 });
  });

  test("not in the library is refused by name, and the field keeps what was typed", () => {
    const { run } = new Hands().enters("TH-XYZ");
    expect(run).toMatchObject({ typed: "TH-XYZ", at: 0, message: 'no product is called "TH-XYZ"' });
  });
});

describe("a lot", () => {
  test("of more than 40 characters is refused", () => {
    expect(new Hands().enter().enters("x".repeat(41)).run.message).toBe("a lot has at most 40 characters");
    expect(draftOf(new Hands().enter().enters("x".repeat(40))).lot).toBe("x".repeat(40));
  });

  test("can't be passed over: the last field leads back to it", () => {
    const hands = new Hands();
    hands.run = { ...hands.run, draft: { ...hands.run.draft, lot: "" } };
    for (let i = 0; i < 4; i++) hands.does({ type: "rowDown" });
    hands.enters("300.2");
    expect(hands.run).toMatchObject({ at: 1, message: "a test needs its lot", draft: { stage: "set out" } });
    hands.enters("4471-B").enter(3);
    expect(draftOf(hands)).toMatchObject({ stage: "weigh empty", lot: "4471-B", chargeG: 300.2 });
  });
});
