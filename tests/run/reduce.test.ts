import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { DraftSchema } from "../../src/record/draft.ts";
import { standing } from "../../src/record/test.ts";
import { type RunEvent, setOutFields } from "../../src/run/run.ts";
import { BARLEY, EMPTY_G, FILTER_SAND, FULL_G, Hands, SETTING } from "./hands.ts";

describe("a whole test", () => {
  test("set out by Enter alone, the last test's words stand in each field", () => {
    const { draft } = new Hands().setsOut().run;
    expect(draft).toMatchObject({
      lot: "4471-B",
      line: "Dryer 1",
      samplingPoint: "discharge",
      chargeG: 300.2,
      stage: "weigh empty",
    });
    expect(draft.product.code).toBe("TH-0510");
  });

  test("the stack is weighed coarsest first whatever order the product lists it in, the pan last", () => {
    expect(new Hands().run.draft.weighings.map((w) => w.apertureUm)).toEqual([1400, 1000, 710, 500, 355, 0]);
  });

  test("goes from the last empty mass to the shaker and from the shaker to the full sieves", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G);
    expect(hands.run.draft.stage).toBe("shake");
    expect(hands.shakes().run).toMatchObject({ at: 0, draft: { stage: "weigh full" } });
  });

  test("ends on the result, with everything on the trail in the order of acceptance", () => {
    const { draft } = new Hands().tests().run;
    expect(draft.stage).toBe("result");
    expect(draft.trail.map((item) => item.field)).toEqual([
      ...setOutFields(FILTER_SAND),
      ...EMPTY_G.map(() => "emptyG"),
      "shaking",
      "shaking",
      ...FULL_G.map(() => "fullG"),
    ]);
    expect(DraftSchema.safeParse(draft).success).toBe(true);
  });

  test("is assessed against its own copy of the product", () => {
    const assessed = assessTest(new Hands().tests().run.draft);
    expect(assessed.ok && assessed.value.lossG).toBeCloseTo(0.3, 10);
    expect(assessed.ok && assessed.value.verdict).toMatchObject({ test: "valid", product: "pass" });
  });
});

describe("setting out", () => {
  test("a product by the beginning of its code brings its own stack", () => {
    const { draft } = new Hands().enters("th-b").run;
    expect(draft.product.code).toBe("TH-BAR");
    expect(draft.weighings.map((w) => w.apertureUm)).toEqual([2000, 1000, 500, 0]);
  });

  test("another product brings the lot, line and sampling point of its own last test", () => {
    expect(new Hands().enters("TH-BAR").run.draft).toMatchObject({
      lot: "M2-7",
      line: "Screen deck B",
      samplingPoint: "belt 4",
    });
  });

  test("a product or a line by its number in the list", () => {
    expect(new Hands().enters("2").run.draft.product.code).toBe("TH-BAR");
    expect(new Hands().enter(2).enters("2").run.draft.line).toBe("Screen deck B");
  });

  test("what could be two products is refused, names them, and keeps what was typed", () => {
    const { run } = new Hands().enters("th-");
    expect(run).toMatchObject({ at: 0, typed: "th-", message: 'product "th-" could be TH-0510 or TH-BAR' });
  });

  test("an unknown line is refused by name", () => {
    expect(new Hands().enter(2).enters("Dryr").run.message).toBe('no line is called "Dryr"');
  });

  test("another product is refused once something is weighed", () => {
    const hands = new Hands().setsOut().weighs([412.31]);
    hands.does({ type: "stageChosen", stage: "set out" }).enters("TH-BAR");
    expect(hands.run.draft.product.code).toBe("TH-0510");
    expect(hands.run.message).toContain("start a new test");
  });

  test("a lot must have a name", () => {
    const hands = new Hands();
    hands.run = { ...hands.run, draft: { ...hands.run.draft, lot: "" } };
    expect(hands.enter(2).run.message).toBe("a test needs its lot");
  });

  test.each([
    ["0", "a charge is more than 0 g"],
    ["4000", "the balance carries 3100 g only"],
    ["1,234.5", "separators"],
  ])("a charge of %s is refused: %s", (typed, reason) => {
    const { run } = new Hands().enter(4).enters(typed);
    expect(run.draft.chargeG).toBeNull();
    expect(run.message).toContain(reason);
  });

  test("a charge left empty means that it was not weighed", () => {
    const { draft } = new Hands().enter(5).run;
    expect(draft).toMatchObject({ chargeG: null, stage: "weigh empty" });
  });
});

describe("weighing", () => {
  const weighing = () => new Hands().setsOut();

  test("Enter without a mass asks for one", () => {
    expect(weighing().enter().run.message).toContain("type the mass");
  });

  test("what can't be read stays in the field with the reason", () => {
    const { run } = weighing().enters("41x");
    expect(run.typed).toBe("41x");
    expect(run.message).not.toBeNull();
    expect(run.draft.weighings[0]?.emptyG).toBeNull();
  });

  test("rows can be weighed from the pan upwards", () => {
    const hands = weighing();
    for (let i = 0; i < 5; i++) hands.does({ type: "rowDown" });
    hands.weighs(EMPTY_G.toReversed());
    expect(hands.run.draft.weighings.map((w) => w.emptyG)).toEqual(EMPTY_G);
    expect(hands.run.draft.stage).toBe("shake");
  });

  test("rows end at the first and at the last", () => {
    const hands = weighing().does({ type: "rowUp" });
    expect(hands.run.at).toBe(0);
    for (let i = 0; i < 20; i++) hands.does({ type: "rowDown" });
    expect(hands.run.at).toBe(5);
  });

  test("a mass is corrected by weighing its row again; the trail keeps the first one", () => {
    const hands = new Hands().tests().does({ type: "stageChosen", stage: "weigh full" });
    hands.does({ type: "rowDown" }).enters("455.30");
    expect(hands.run.draft.weighings[1]?.fullG).toBe(455.3);
    expect(hands.run.draft.trail.at(-1)).toMatchObject({ field: "fullG", apertureUm: 1000, from: 455.2, to: 455.3 });
  });

  test("a balance that types puts one whole entry into the row in hand", () => {
    const hands = weighing();
    hands.does({ type: "scanned", text: "+  412.31 g", ended: true, at: hands.moment() });
    expect(hands.run.draft.weighings[0]?.emptyG).toBe(412.31);
    expect(hands.run.at).toBe(1);
  });

  test("a scanned lot in a mass row is refused, never an action", () => {
    const hands = weighing();
    hands.does({ type: "scanned", text: "4471-B", ended: true, at: hands.moment() });
    expect(hands.run.draft.weighings[0]?.emptyG).toBeNull();
    expect(hands.run.message).not.toBeNull();
  });
});

describe("taking back", () => {
  test("returns the last mass, its row in hand, and says so on the trail", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G.slice(0, 3)).undoes();
    expect(hands.run.draft.weighings[2]?.emptyG).toBeNull();
    expect(hands.run.at).toBe(2);
    expect(hands.run.draft.trail.at(-1)).toMatchObject({
      field: "emptyG",
      apertureUm: 710,
      from: 381.2,
      to: null,
      undo: true,
    });
  });

  test("twice takes two entries back, not the same one twice", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G.slice(0, 3)).undoes().undoes();
    expect(hands.run.draft.weighings.map((w) => w.emptyG)).toEqual([412.31, null, null, null, null, null]);
  });

  test("a correction taken back gives the former mass again", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G.slice(0, 2));
    hands.does({ type: "rowUp" }).does({ type: "rowUp" }).enters("412.99").undoes();
    expect(hands.run.draft.weighings[0]?.emptyG).toBe(412.31);
  });

  test("reaches back over the shaker", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G).shakes().undoes();
    expect(hands.run.draft.shaking).toMatchObject({ endedAt: null });
    expect(hands.run.draft.shaking.startedAt).not.toBeNull();
    expect(hands.run.draft.stage).toBe("shake");
  });

  test("of nothing says so", () => {
    expect(new Hands().undoes().run.message).toBe("nothing to take back");
  });

  test("everything brings the draft back to nothing weighed, with all of it still on the trail", () => {
    const hands = new Hands().tests();
    const entries = hands.run.draft.trail.length;
    for (let i = 0; i < entries; i++) hands.undoes();
    expect(hands.run.draft.weighings.every((w) => w.emptyG === null && w.fullG === null)).toBe(true);
    expect(standing(hands.run.draft.trail)).toEqual([]);
    expect(hands.run.draft.trail).toHaveLength(2 * entries);
  });
});

describe("remark and disposition", () => {
  test("go on the trail, unchanged ones do not", () => {
    const hands = new Hands().tests();
    const before = hands.run.draft.trail.length;
    hands.does({ type: "remarked", text: " lid rattled ", at: hands.moment() });
    hands.does({ type: "remarked", text: "lid rattled", at: hands.moment() });
    hands.does({ type: "disposed", disposition: "hold", at: hands.moment() });
    expect(hands.run.draft).toMatchObject({ remark: "lid rattled", disposition: "hold" });
    expect(hands.run.draft.trail).toHaveLength(before + 2);
  });
});

const anyEvent: fc.Arbitrary<RunEvent> = fc.oneof(
  fc.constantFrom<RunEvent>({ type: "erased" }, { type: "rowUp" }, { type: "rowDown" }),
  fc.constantFrom("1", "9", ".", ",", "-", "k", "ü", " ").map((text): RunEvent => ({ type: "typed", text })),
  fc.constantFrom<RunEvent>(
    { type: "accepted", at: "2026-11-24T03:00:00+01:00" },
    { type: "undone", at: "2026-11-24T03:00:00+01:00" },
    { type: "shakingStarted", at: "2026-11-24T03:00:00+01:00" },
    { type: "shakingEnded", at: "2026-11-24T03:00:00+01:00" },
    { type: "shakingSkipped", reason: "by hand", at: "2026-11-24T03:00:00+01:00" },
    { type: "stageChosen", stage: "set out" },
    { type: "stageChosen", stage: "weigh full" },
    { type: "scanned", text: "+ 412.31 g", ended: true, at: "2026-11-24T03:00:00+01:00" },
  ),
);

test("whatever happens, in whatever order: the draft stays valid and the trail only grows", () => {
  fc.assert(
    fc.property(fc.array(anyEvent, { maxLength: 60 }), (events) => {
      const hands = new Hands({ ...SETTING, products: [BARLEY] }, BARLEY);
      for (const event of events) {
        const before = hands.run.draft.trail;
        hands.does(event);
        expect(hands.run.draft.trail.slice(0, before.length)).toEqual(before);
        expect(DraftSchema.safeParse(hands.run.draft).success).toBe(true);
      }
    }),
    { numRuns: 60 },
  );
});
