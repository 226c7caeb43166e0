import { describe, expect, test } from "vitest";
import { columnOf, fieldInHand, handsFree, massInHand, refuse, setOutFields } from "../../src/run/run.ts";
import { BARLEY, FILTER_SAND, Hands } from "./hands.ts";

const busy = { ...new Hands().run, typed: "41", doubt: { grams: 41, text: "really?" }, message: "what?" };

describe("hands", () => {
  test("free have nothing typed, nothing doubted and no message, and all else as it was", () => {
    expect(handsFree(busy)).toEqual({ ...busy, typed: "", doubt: null, message: null });
    expect(handsFree(busy).draft).toBe(busy.draft);
  });

  test("refused keep what was typed, so that it can be put right, with the reason beside it", () => {
    expect(refuse(busy, "no such line")).toEqual({ ...busy, doubt: null, message: "no such line" });
  });
});

describe("the field in hand", () => {
  test("goes down the page, and a place beyond it counts as its first field", () => {
    const run = new Hands().run;
    expect(setOutFields(FILTER_SAND).map((_, at) => fieldInHand({ ...run, at }))).toEqual(setOutFields(FILTER_SAND));
    expect(fieldInHand({ ...run, at: 99 })).toBe("product");
  });

  test("takes a mass where a mass is asked and nowhere else", () => {
    const run = new Hands().run;
    const masses = setOutFields(FILTER_SAND).filter((_, at) => massInHand({ ...run, at }));
    expect(masses).toEqual(["chargeG"]);
  });

  test("of a product that is moist and washed is one of eight", () => {
    const method = { washed: true, procedure: { ruleSet: "own" as const, moisture: { maxPct: 1 } } };
    expect(setOutFields({ ...BARLEY, method })).toEqual([
      "product",
      "lot",
      "line",
      "samplingPoint",
      "moistG",
      "dryG",
      "chargeG",
      "washedG",
    ]);
  });
});

test("only the page of full sieves takes full masses", () => {
  expect(columnOf("weigh full")).toBe("fullG");
  for (const stage of ["set out", "weigh empty", "shake", "result"] as const) expect(columnOf(stage)).toBe("emptyG");
});
