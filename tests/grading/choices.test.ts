import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { basisOf, choicesOf } from "../../src/grading/choices.ts";
import { BASES, CLASS_MEANS, FITS, INTERPOLATIONS, type Method, type Product } from "../../src/record/product.ts";
import { BARLEY } from "../run/hands.ts";

const productWith = (method: Method, change: Partial<Product> = {}): Product => ({ ...BARLEY, ...change, method });

describe("the basis", () => {
  test("is the recovered total where nobody says otherwise", () => {
    expect(basisOf(null, {})).toBe("recovered");
    expect(basisOf(BARLEY, {})).toBe("recovered");
    expect(basisOf(productWith({}), {})).toBe("recovered");
  });

  test.each(BASES)("%s is the product's word, and the caller's beats it", (basis) => {
    const other = basis === "charge" ? "recovered" : "charge";
    expect(basisOf(productWith({ basis }), {})).toBe(basis);
    expect(basisOf(productWith({ basis: other }), { basis })).toBe(basis);
    expect(basisOf(null, { basis })).toBe(basis);
  });
});

describe("the choices of the numbers", () => {
  test("without a product, or with one that says nothing, are the defaults of the house", () => {
    const defaults = {
      interpolation: "log-linear",
      fit: "least-squares",
      material: {},
      modulusSeries: "astm",
      modulusInterpolateMissing: false,
    };
    expect(choicesOf(null, {})).toEqual(defaults);
    expect(choicesOf(BARLEY, {})).toEqual(defaults);
    expect(choicesOf(productWith({}), {})).toEqual(defaults);
  });

  test("leave open what nobody chose, so that each value keeps the convention of its own definition", () => {
    const choices = choicesOf(null, {});
    for (const open of ["topUm", "pan", "classMean"]) expect(choices).not.toHaveProperty(open);
  });

  test("are the product's word for word", () => {
    const method: Method = {
      interpolation: "monotone",
      topUm: 2000,
      pan: { sizeUm: 44 },
      classMean: "geometric",
      fit: "line",
    };
    const material = { particleDensityKgM3: 2650, sphericity: 0.8 };
    expect(choicesOf(productWith(method, { material }), {})).toEqual({
      ...method,
      material,
      modulusSeries: "astm",
      modulusInterpolateMissing: false,
    });
    expect(choicesOf(productWith({ pan: "dropped" }), {}).pan).toBe("dropped");
  });

  test("of the fineness modulus come from the wish for it, with or without limits", () => {
    const wish = { id: "finenessModulus", series: "feed", interpolateMissing: true } as const;
    const values = [{ id: "relativeSpan", max: 2 } as const, wish];
    expect(choicesOf({ ...BARLEY, values }, {})).toMatchObject({
      modulusSeries: "feed",
      modulusInterpolateMissing: true,
    });
    expect(choicesOf({ ...BARLEY, values: [{ id: "finenessModulus" }] }, {}).modulusSeries).toBe("astm");
  });

  test("of interpolation are the caller's where the caller says so, and nothing else changes", () => {
    const product = productWith({ interpolation: "linear", fit: "line" });
    const choices = choicesOf(product, { interpolation: "log-probability", basis: "charge" });
    expect(choices).toEqual({ ...choicesOf(product, {}), interpolation: "log-probability" });
  });

  test("are all decided, whatever the product says", () => {
    const method = fc.record(
      {
        interpolation: fc.constantFrom(...INTERPOLATIONS),
        fit: fc.constantFrom(...FITS),
        classMean: fc.constantFrom(...CLASS_MEANS),
        basis: fc.constantFrom(...BASES),
      },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(method, (chosen) => {
        const choices = choicesOf(productWith(chosen), {});
        expect(choices.interpolation).toBe(chosen.interpolation ?? "log-linear");
        expect(choices.fit).toBe(chosen.fit ?? "least-squares");
        expect(choices.classMean).toBe(chosen.classMean);
        expect(Object.values(choices)).not.toContain(undefined);
      }),
    );
  });
});
