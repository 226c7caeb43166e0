import { describe, expect, test } from "vitest";
import { CHARACTERISTIC_VALUES } from "../../src/grading/values/table.ts";
import type { Product } from "../../src/record/product.ts";
import { allValues, type ShownValue, shownIds, shownValues } from "../../src/report/shown.ts";
import { assessed, product } from "./assessed.ts";

const SAND = "# charge_g: 300.2\naperture_um,net_g\n1400,5.71\n1000,56.46\n710,112.3\n500,92.18\n355,28.75\npan,4.5\n";
const plain = (change: Partial<Product> = {}): Product => ({
  schema: "sievewright.product/1",
  code: "TH-XYZ",
  name: "invented",
  revision: 1,
  stackUm: [1000],
  ...change,
});
const shown = (change: Partial<Product>): readonly ShownValue[] =>
  shownValues(assessed(SAND, plain(change)), plain(change));

describe("which values a product's people see", () => {
  test("are those that it lists, in its order", () => {
    const show: Product["show"] = ["percentileUm@90", "relativeSpan", "percentileUm@10"];
    expect(shownIds(plain({ show, values: [{ id: "finenessModulus", max: 3 }] }))).toEqual(show);
  });

  test("are none where it lists none", () => {
    expect(shownIds(plain({ show: [] }))).toEqual([]);
  });

  test("else are those that it asks for, with limits or without", () => {
    const values: Product["values"] = [{ id: "percentileUm", passingPct: 50, min: 690 }, { id: "relativeSpan" }];
    expect(shownIds(plain({ values }))).toEqual(["percentileUm@50", "relativeSpan"]);
  });

  test("else, and without a product, are five that say most", () => {
    const usual = ["percentileUm@10", "percentileUm@50", "percentileUm@90", "uniformityCoefficient", "effectiveSizeUm"];
    expect(shownIds(plain())).toEqual(usual);
    expect(shownIds(null)).toEqual(usual);
    expect(shownValues(assessed(SAND), null).map((value) => value.id)).toEqual(usual);
  });
});

describe("a value as it is shown", () => {
  test("has the trade's word: d50, or the label of the table", () => {
    const labels = shown({ show: ["percentileUm@50", "percentileUm@12.5", "finenessModulus"] }).map((v) => v.label);
    expect(labels).toEqual(["d50", "d12.5", "Fineness modulus"]);
  });

  test("has the limit on it, judged, or none", () => {
    const values: Product["values"] = [
      { id: "percentileUm", passingPct: 50, min: 690, max: 700 },
      { id: "relativeSpan" },
    ];
    const [d50, span] = shown({ values });
    expect(d50?.limit).toMatchObject({ on: "percentileUm@50", min: 690, max: 700, result: "above" });
    expect(span?.limit).toBeNull();
  });

  test("is what the assessment found, to the last digit", () => {
    const assessment = assessed(SAND, plain({ show: ["percentileUm@10", "relativeSpan"] }));
    const [d10, span] = shown({ show: ["percentileUm@10", "relativeSpan"] });
    expect(d10?.found).toEqual(assessment.percentilesUm["10"]);
    expect(span?.found).toEqual(assessment.values.relativeSpan);
  });

  test("of a percentile outside the usual twelve is found by its limit, else says that it is not computed", () => {
    const limited: Product["values"] = [{ id: "percentileUm", passingPct: 42, min: 1 }];
    const [d42] = shown({ values: limited });
    expect(d42?.found).toMatchObject({ determinable: true, unit: "um" });
    expect(shown({ show: ["percentileUm@42"] })[0]?.found).toEqual({
      determinable: false,
      reason: "d42 is not among the percentiles computed",
    });
  });

  test("beyond the sieves is the reason, with or without a limit on it", () => {
    const reason = { determinable: false, reason: expect.stringContaining("355 um") };
    const fine: Product["values"] = [{ id: "percentileUm", passingPct: 1, min: 1 }];
    expect(shown({ values: fine })[0]?.found).toMatchObject(reason);
    expect(shown({ show: ["percentileUm@0.5"], values: fine })[0]?.found.determinable).toBe(false);
  });
});

test("all values are those of the table, in its order, each by its label", () => {
  const all = allValues(assessed(SAND, product("TH-0510")));
  expect(all.map(({ id, label }) => [id, label])).toEqual(CHARACTERISTIC_VALUES.map(({ id, label }) => [id, label]));
  expect(all.find((value) => value.id === "effectiveSizeUm")?.limit).toMatchObject({ min: 400, max: 560 });
});
