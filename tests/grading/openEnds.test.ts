import { describe, expect, test } from "vitest";
import { openEndWarnings, panEnd, topEnd } from "../../src/grading/openEnds.ts";
import { choices, graded } from "./stack.ts";

const open = graded("1400:12 710:40 63:34 pan:14");
const closed = graded("2000:0 1400:0 710:60 63:40 pan:0");

describe("the top", () => {
  test("is the next coarser size of R20/3 above a sieve that holds something", () => {
    expect(topEnd(open, choices())).toEqual({
      ok: true,
      value: {
        boundUm: 2000,
        assumption: "the 12 % on the 1.40 mm sieve taken to pass 2.00 mm, the next size of R20/3",
      },
    });
  });

  test("is the product's top size where it names one", () => {
    expect(topEnd(open, choices({ topUm: 1700 }))).toEqual({
      ok: true,
      value: {
        boundUm: 1700,
        assumption: "the 12 % on the 1.40 mm sieve taken to pass 1.70 mm, the product's top size",
      },
    });
  });

  test("needs no assumption above the finest sieve that passes everything", () => {
    expect(topEnd(closed, choices({ topUm: 500 }))).toEqual({ ok: true, value: { boundUm: 1400, assumption: null } });
  });

  test("a top size that the coarsest sieve disproves is refused", () => {
    expect(topEnd(open, choices({ topUm: 1400 }))).toEqual({
      ok: false,
      reason: "the product's top size of 1.40 mm contradicts the 12 % on the 1.40 mm sieve",
    });
  });
});

describe("the pan", () => {
  test("reaches down to half the finest aperture", () => {
    expect(panEnd(open, choices())).toEqual({
      ok: true,
      value: {
        kind: "bounded",
        lowerUm: 31.5,
        assumption: "the pan's 14 % taken to lie between 31.5 um (half the finest aperture) and 63 um",
      },
    });
  });

  test("has one size or is left out, as the product says", () => {
    expect(panEnd(open, choices({ pan: { sizeUm: 44 } }))).toEqual({
      ok: true,
      value: { kind: "sized", sizeUm: 44, assumption: "the pan's 14 % taken as 44 um" },
    });
    expect(panEnd(open, choices({ pan: "dropped" }))).toEqual({
      ok: true,
      value: { kind: "dropped", assumption: "the pan's 14 % left out" },
    });
  });

  test("needs nothing when it is empty", () => {
    for (const pan of [undefined, "dropped", { sizeUm: 44 }] as const) {
      expect(panEnd(closed, choices(pan === undefined ? {} : { pan }))).toEqual({ ok: true, value: { kind: "empty" } });
    }
  });

  test("a size that the finest sieve would hold is refused", () => {
    expect(panEnd(open, choices({ pan: { sizeUm: 63 } }))).toEqual({
      ok: false,
      reason: "the pan's size of 63 um is not below the finest sieve",
    });
  });
});

describe("a warning for an open end above 5 %", () => {
  test("both ends", () => {
    expect(openEndWarnings(open, choices())).toEqual([
      "the coarsest sieve holds 12 %: values that use its assumed size rest on that assumption",
      "the pan holds 14 %: values that use its assumed size rest on that assumption",
    ]);
  });

  test("not at 5 %, not for a pan left out, not for closed ends", () => {
    expect(openEndWarnings(graded("1000:5 500:90 pan:5"), choices())).toEqual([]);
    expect(openEndWarnings(graded("1000:5 500:80 pan:15"), choices({ pan: "dropped" }))).toEqual([]);
    expect(openEndWarnings(closed, choices())).toEqual([]);
  });
});
