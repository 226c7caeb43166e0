import { describe, expect, test } from "vitest";
import type { ProcedureChoice } from "../../src/record/procedure.ts";
import type { Product } from "../../src/record/product.ts";
import { fairLoadOn } from "../../src/run/fairLoad.ts";
import { EMPTY_G, FILTER_SAND, Hands, SETTING } from "./hands.ts";

const productBy = (procedure: ProcedureChoice): Product => ({ ...FILTER_SAND, method: { procedure } });
const draftBy = (procedure: ProcedureChoice) => new Hands(SETTING, productBy(procedure)).run.draft;

describe("what a sieve may hold", () => {
  test("by the area rule is the same for all sieves below 4.75 mm, and follows the frame", () => {
    const on = (frameMm: number, um: number) => fairLoadOn(draftBy({ ruleSet: "astm-c136-2020", frameMm }), um);
    // ASTM C136/C136M-19, clause 8 (seen): about 200 g on 8 in. sieves, 469 g on 12 in. ones.
    expect(on(203, 710)).toMatchObject({ determinable: true, unit: "g", value: expect.closeTo(200, 0) });
    expect(on(203, 1400)).toEqual(on(203, 710));
    expect(on(305, 710)).toMatchObject({ value: expect.closeTo(469, 0) });
  });

  test("by the product's own limits is what it says of that sieve, else of all", () => {
    const draft = draftBy({
      ruleSet: "own",
      load: { rule: "own", limitG: 120, perSieve: [{ apertureUm: 710, limitG: 150 }] },
    });
    expect(fairLoadOn(draft, 710)).toMatchObject({ value: 150 });
    expect(fairLoadOn(draft, 500)).toMatchObject({ value: 120 });
  });

  test("without the frame can't be told, with the reason", () => {
    expect(fairLoadOn(draftBy({ ruleSet: "astm-c136-2020" }), 710)).toEqual({
      determinable: false,
      reason: "the frame of the sieves is not given",
    });
  });

  test("is no question for the pan, or where the product has no such rule", () => {
    expect(fairLoadOn(draftBy({ ruleSet: "astm-c136-2020", frameMm: 203 }), 0)).toBeNull();
    expect(fairLoadOn(new Hands().run.draft, 710)).toBeNull();
    expect(fairLoadOn(draftBy({ ruleSet: "astm-c136-2020", frameMm: 203, load: { rule: "none" } }), 710)).toBeNull();
  });
});

describe("a sieve that holds more than it may", () => {
  const LIMITED = productBy({ ruleSet: "own", load: { rule: "own", limitG: 100 } });
  const onSecond = () => new Hands(SETTING, LIMITED).setsOut().enter().weighs(EMPTY_G).shakes().enters("418.02");

  test("is doubted while it is on the balance, with what it may hold and what to do", () => {
    expect(onSecond().enters("498.75").run.doubt?.text).toBe(
      "the 1.00 mm sieve holds 100.01 g, a fair load is 100 g: sieve in portions (a on the result)",
    );
  });

  test("is not doubted up to its limit", () => {
    expect(onSecond().enters("498.74").run.doubt).toBeNull();
  });

  test("is taken all the same on a second Enter, with the warning on the trail", () => {
    const { draft } = onSecond().enters("500").enter().run;
    expect(draft.weighings[1]?.fullG).toBe(500);
    expect(draft.trail.at(-1)?.warned).toContain("a fair load is 100 g");
  });
});
