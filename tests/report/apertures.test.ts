import { describe, expect, test } from "vitest";
import { meansOf } from "../../src/assess/drawnOver.ts";
import { assess } from "../../src/assess.ts";
import { EvaluationSchema } from "../../src/record/evaluation.ts";
import type { MeanAperture } from "../../src/record/meanAperture.ts";
import type { Product } from "../../src/record/product.ts";
import { restsOnWords } from "../../src/report/apertureWords.ts";
import { resultPage } from "../../src/report/page.ts";
import { productPage } from "../../src/report/productPage.ts";
import { resultCsv } from "../../src/report/resultCsv.ts";
import { resultJson } from "../../src/report/resultJson.ts";
import { fractionsOf } from "../grading/stack.ts";

const PRODUCT: Product = {
  schema: "sievewright.product/1",
  code: "TH-T1",
  name: "invented sand",
  revision: 1,
  stackUm: [1000, 500, 250],
  method: { apertures: "certified" },
  envelope: [{ apertureUm: 1000, passingPct: { min: 70 } }],
};
const MEANS: readonly MeanAperture[] = [
  {
    apertureUm: 1000,
    serial: "S-1",
    meanUm: 995,
    restsOn: { certificate: { number: "C-1", day: "2026-03-02", laboratory: "Invented Metrology" } },
    doubt: "its certificate was to be relied on until 2026-09-30",
  },
  {
    apertureUm: 500,
    serial: "S-2",
    meanUm: 510,
    restsOn: { check: { number: 214, day: "2026-11-03", material: "TH-RM1" } },
  },
  { apertureUm: 250, serial: "S-3", meanUm: 245, restsOn: { certificate: { day: "2026-03-02", laboratory: "Lab" } } },
];

function found(apertures: "nominal" | "certified", means = MEANS) {
  const fractions = fractionsOf("1000:20 500:40 250:30 pan:10");
  const rows = ["S-1", "S-2", "S-3"].map((serial, i) => ({ apertureUm: [1000, 500, 250][i] ?? 0, serial }));
  const product = { ...PRODUCT, method: { apertures } };
  const of = { fractions, chargeG: null, washedG: null };
  const assessed = assess(of, product, { readabilityG: 0.01, means: meansOf(rows, means) });
  if (!assessed.ok) throw new Error(assessed.reason);
  return assessed.value;
}

const page = (assessment = found("certified")) =>
  resultPage(
    assessment,
    { product: PRODUCT, lot: "1", line: "", printed: "now", decimals: 2 },
    { width: 80, curve: [] },
  );

describe("a result whose curve is drawn over other apertures", () => {
  test("says so on its page, sieve by sieve, with what each mean rests on and what speaks against it", () => {
    const text = page();
    expect(text).toContain("curve drawn over certified mean apertures");
    expect(text).toMatch(
      /1\.00 mm +S-1 +995\.0 um +– +certificate C-1 of 2026-03-02, Invented Metrology; ! its certificate/,
    );
    expect(text).toMatch(/500 um +S-2 +510\.0 um +39\.19 +reference check no\. 214 of 2026-11-03, TH-RM1/);
    expect(text).toContain("at 1.00 mm: above 995.0 um (that sieve holds 20 %)");
    expect(text).toMatch(/500 um +40\.00 +40\.00 +40\.00 +39\.19/);
    expect(text.replaceAll(/\s+/g, " ")).toContain(
      "The curve is drawn over certified mean apertures; limits and series sieves",
    );
    expect(text.replaceAll(/\s+/g, " ")).toContain(
      "± counts how the curve may bend there: by how much another interpolation reads otherwise",
    );
  });

  test("has them in JSON by the schema, with null and the reason where one is not known", () => {
    const [, , last] = MEANS;
    const lacking = [
      { apertureUm: 1000, serial: "S-1", lacks: "it has no certificate in the register" },
      ...(last ? [last] : []),
    ];
    const { apertures } = EvaluationSchema.parse(JSON.parse(resultJson(found("certified", lacking))));
    expect(apertures?.choice).toBe("certified");
    expect(apertures?.of[0]).toEqual({
      apertureUm: 1000,
      meanUm: null,
      serial: "S-1",
      restsOn: null,
      lacks: "it has no certificate in the register",
      passingAtNominalPct: null,
    });
    const known = EvaluationSchema.parse(JSON.parse(resultJson(found("certified")))).apertures?.of[1];
    expect(known).toMatchObject({ meanUm: 510, serial: "S-2", restsOn: { check: { number: 214 } } });
    expect(known?.passingAtNominalPct).toBeCloseTo(39.19, 2);
  });

  test("has two columns more as CSV", () => {
    const [heading, , second, , pan] = resultCsv(found("certified"), { product: "", lot: "", line: "" }).split("\r\n");
    expect(heading).toMatch(/passing_high_pct,mean_um,at_nominal_pct$/);
    expect(second).toMatch(/,510,39\.18/);
    expect(pan).toMatch(/^pan,.*,,$/);
  });

  test("over nominal apertures says nothing of all that", () => {
    const nominal = found("nominal");
    expect(page(nominal)).not.toMatch(/drawn over|at nominal/);
    expect(resultJson(nominal)).not.toContain('apertures":{');
    expect(resultCsv(nominal, { product: "", lot: "", line: "" })).not.toContain("mean_um");
  });
});

test("what a mean aperture rests on is a certificate, by number where it has one, or an entry of the log", () => {
  expect(MEANS.map((mean) => ("restsOn" in mean ? restsOnWords(mean) : ""))).toEqual([
    "certificate C-1 of 2026-03-02, Invented Metrology",
    "reference check no. 214 of 2026-11-03, TH-RM1",
    "certificate of 2026-03-02, Lab",
  ]);
});

test("a product's page names what its curve is drawn over", () => {
  expect(productPage(PRODUCT)).toContain("drawn over certified mean apertures");
  expect(productPage({ ...PRODUCT, method: {} })).not.toContain("drawn over");
});
