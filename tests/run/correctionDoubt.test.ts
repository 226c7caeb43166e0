import { describe, expect, test } from "vitest";
import type { Change } from "../../src/record/amendment.ts";
import { withChanges } from "../../src/record/versions.ts";
import { correctionDoubt } from "../../src/run/correctionDoubt.ts";
import { recordedEntry } from "../screens/stage.ts";
import { must } from "../store/opened.ts";

const { test: RECORDED } = recordedEntry();
const doubt = (change: Change, of = RECORDED) => correctionDoubt(must(withChanges(of, [change])), change);

describe("a corrected mass", () => {
  test.each<[Change, string | null]>([
    [{ field: "fullG", apertureUm: 710, from: 493.5, to: 493.2 }, null],
    [{ field: "emptyG", apertureUm: 710, from: 381.2, to: 381.3 }, null],
    [{ field: "fullG", apertureUm: 710, from: 493.5, to: 93.5 }, "287.7 g below empty (381.2 g)"],
    [{ field: "emptyG", apertureUm: 710, from: 381.2, to: 581.2 }, "87.7 g below empty (581.2 g)"],
    [{ field: "fullG", apertureUm: 710, from: 493.5, to: 3493.5 }, "the balance carries 3100 g only"],
    [{ field: "emptyG", apertureUm: 710, from: 381.2, to: 3381.2 }, "the balance carries 3100 g only"],
    [{ field: "fullG", apertureUm: 0, from: 358.6, to: 368.6 }, "more than the charge"],
    [{ field: "emptyG", apertureUm: 0, from: 354.1, to: 344.1 }, "more than the charge"],
    [{ field: "lot", from: "4470-A", to: "X" }, null],
  ])("%# is asked what a mass on the balance is asked", (change, text) => {
    if (text === null) expect(doubt(change)).toBe(null);
    else expect(doubt(change)).toContain(text);
  });

  test("that equals the one before it is not doubted for that: nothing is read again here", () => {
    const again: Change = { field: "fullG", apertureUm: 500, from: 459.13, to: 459.14 };
    expect(doubt(again)).toBe(null);
  });

  test("of the charge is held to what the product allows", () => {
    const { product } = RECORDED;
    const choosy = {
      ...RECORDED,
      product: { ...product, method: { ...product.method, chargeG: { min: 250, max: 350 } } },
    };
    expect(doubt({ field: "chargeG", from: 300.2, to: 30.2 }, choosy)).toContain("too little");
    expect(doubt({ field: "chargeG", from: 300.2, to: 310.2 }, choosy)).toBe(null);
  });
});
