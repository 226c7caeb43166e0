import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CHARACTERISTIC_VALUES } from "../../src/grading/values/table.ts";
import { figureIn, figureNamed, figuresOf, firstFigure } from "../../src/shift/trendFigure.ts";
import { rowAt, SAND } from "./trendWorld.ts";

const figures = figuresOf(SAND);
const named = (on: string) => {
  const found = figures.find((one) => one.on === on);
  if (!found) throw new Error(`no figure ${on}`);
  return found;
};

describe("figures of a product", () => {
  test("begin with its limits, then what it shows, then all others, none twice", () => {
    expect(figures.slice(0, 5).map(({ on, standing }) => [on, standing])).toEqual([
      ["coarserPct@710", "limited"],
      ["passingPct@500", "limited"],
      ["percentileUm@50", "limited"],
      ["uniformityCoefficient", "limited"],
      ["percentileUm@10", "shown"],
    ]);
    const all = figures.map(({ on }) => on);
    expect(new Set(all).size).toBe(all.length);
    for (const { id } of CHARACTERISTIC_VALUES) expect(all).toContain(id);
    for (const um of SAND.stackUm) expect(all).toContain(`passingPct@${um}`);
  });

  test("carry the limits, the unit and the trade's word", () => {
    expect(named("percentileUm@50")).toMatchObject({ label: "d50", unit: "um", min: 690, max: 790 });
    expect(named("passingPct@500")).toMatchObject({ label: "passing 500 um", unit: "%", min: 3, max: 20 });
    expect(named("coarserPct@710")).toMatchObject({ label: "coarser than 710 um", min: null, max: 70 });
    expect(named("uniformityCoefficient")).toMatchObject({ unit: "1", min: null, max: 2 });
    expect(named("percentileUm@90")).toMatchObject({ min: null, max: null, standing: "other" });
  });

  test("begin on the screen with d50 if it is limited, else a value, else a sieve, else d50", () => {
    expect(firstFigure(figures)?.on).toBe("percentileUm@50");
    expect(firstFigure(figuresOf({ ...SAND, values: [{ id: "uniformityCoefficient", max: 2 }] }))?.on).toBe(
      "uniformityCoefficient",
    );
    expect(firstFigure(figuresOf({ ...SAND, values: [] }))?.on).toBe("coarserPct@710");
    const { envelope: _envelope, values: _values, ...bare } = SAND;
    expect(firstFigure(figuresOf(bare))?.on).toBe("percentileUm@50");
    expect(firstFigure([])).toBeUndefined();
  });
});

describe("a figure by name", () => {
  test.each([
    ["d50", "percentileUm@50"],
    ["D50", "percentileUm@50"],
    ["percentileUm@50", "percentileUm@50"],
    [" passingPct@500 ", "passingPct@500"],
    ["PASSINGPCT@500", "passingPct@500"],
    ["retainedPct@500", "retainedPct@500"],
    ["passingPct@63", "passingPct@63"],
    ["finenessModulus", "finenessModulus"],
    ["uniformitycoefficient", "uniformityCoefficient"],
  ])("%j is %s", (asked, on) => expect(figureNamed(SAND, asked)).toMatchObject({ ok: true, value: { on } }));

  test("keeps the product's limits", () =>
    expect(figureNamed(SAND, "d50")).toMatchObject({ ok: true, value: { min: 690, max: 790 } }));

  test.each([
    ["nonsense", /names no figure/],
    ["passingPct@", /names no figure/],
    ["passingPct@-5", /names no figure/],
    ["", /names no figure/],
    ["toString", /names no figure/],
    ["d51", /d51 is not kept in the index, which has d5, d10/],
  ])("%j is refused, with what can be given", (asked, why) => {
    const found = figureNamed(SAND, asked);
    expect(found).toMatchObject({ ok: false });
    expect(found.ok ? "" : found.reason).toMatch(why);
  });

  test("any text is either a figure or refused in words", () =>
    fc.assert(
      fc.property(fc.string({ maxLength: 30 }), (asked) => {
        const found = figureNamed(SAND, asked);
        expect(found.ok ? found.value.label : found.reason).not.toBe("");
      }),
    ));
});

describe("a figure in a recorded test", () => {
  const found = (on: string, change = {}) => figureIn(rowAt(0, change), { on, unit: "%" });

  test("is what the index has", () => {
    expect(figureIn(rowAt(0), named("percentileUm@50"))).toEqual({ determinable: true, value: 740, unit: "um" });
    expect(found("passingPct@500")).toMatchObject({ value: 12, unit: "%" });
  });

  test("coarser % is what does not pass; retained % the difference to the next coarser sieve, on the coarsest to 100", () => {
    expect(found("coarserPct@710")).toMatchObject({ value: 55 });
    expect(found("retainedPct@710")).toMatchObject({ value: 35 });
    expect(found("retainedPct@1000")).toMatchObject({ value: 20 });
  });

  test("of a curve over other apertures is not told where the curve may not reach the coarsest", () => {
    const over = { apertures: "certified" as const };
    expect(found("retainedPct@1000", over)).toMatchObject({ determinable: false });
    expect(found("retainedPct@710", over)).toMatchObject({ value: 35 });
    expect(found("passingPct@1400", over)).toMatchObject({ reason: expect.stringContaining("does not reach") });
  });

  test("all sieves together retain what does not pass the finest", () => {
    const retained = [1000, 710, 500].map((um) => found(`retainedPct@${um}`));
    const sum = retained.reduce((total, one) => total + (one.determinable ? one.value : Number.NaN), 0);
    expect(sum).toBeCloseTo(100 - 12, 12);
  });

  test("that is not there is a reason", () => {
    expect(found("passingPct@63")).toEqual({ determinable: false, reason: "its stack had no sieve of 63 um" });
    expect(found("finenessModulus")).toEqual({
      determinable: false,
      reason: "it could not be determined in this test",
    });
    expect(found("percentileUm@42")).toEqual({ determinable: false, reason: "the index does not keep d42" });
  });
});
