import { describe, expect, test } from "vitest";
import { EvaluationSchema } from "../../src/record/evaluation.ts";
import { resultJson } from "../../src/report/resultJson.ts";
import { assessed, product } from "./assessed.ts";

const json = (...args: Parameters<typeof assessed>) => JSON.parse(resultJson(assessed(...args)));

describe("the result as JSON", () => {
  test.each(["TH-0510.csv", "TH-MAS.json", "TH-PG3.csv"])("of %s is valid by its schema, judged or not", (sheet) => {
    const code = sheet.replace(/\.\w+$/, "");
    expect(EvaluationSchema.safeParse(json(sheet)).error).toBeUndefined();
    expect(EvaluationSchema.safeParse(json(sheet, product(code))).error).toBeUndefined();
  });

  test("has the fields of the contract in its order", () =>
    expect(Object.keys(json("TH-0510.csv"))).toEqual([
      "schema",
      "basis",
      "interpolation",
      "chargeG",
      "recoveredG",
      "lossG",
      "lossPct",
      "fractions",
      "percentilesUm",
      "values",
      "models",
      "verdict",
      "notices",
      "procedure",
      "washedG",
      "judgedAgainst",
      "uncertainty",
    ]));

  test("says how sure it is, by the same numbers that decide", () => {
    const guarded = product("TH-MAS", { decision: { rule: "guarded" } });
    const { uncertainty, verdict, fractions } = json("TH-MAS.json", guarded);
    expect(uncertainty).toMatchObject({ model: 1, coverageFactor: 2, monteCarlo: null });
    expect(uncertainty.passingPct.map(({ sure }: { sure: { value: number } }) => sure.value)).toEqual(
      fractions.slice(0, -1).map(({ passingPct }: { passingPct: number }) => passingPct),
    );
    const at500 = uncertainty.passingPct.find((one: { apertureUm: number }) => one.apertureUm === 500).sure;
    expect(at500.U).toBe(2 * at500.u);
    expect(Math.hypot(...(Object.values(at500.components) as number[]))).toBeCloseTo(at500.u, 12);
    const judged = verdict.limits.find(({ on }: { on: string }) => on === "passingPct@500");
    const limit = uncertainty.limits.find(({ on }: { on: string }) => on === "passingPct@500");
    expect(judged.guarded).toEqual({ u: at500.u, U: at500.U, guard: limit.guard, conformity: limit.conformity });
    expect(limit).toMatchObject({ rule: "guarded acceptance", result: judged.result });
    const left = uncertainty.components.filter(({ included }: { included: boolean }) => !included);
    for (const { reason } of left) expect(reason).toMatch(/\w/);
    expect(left.map(({ id }: { id: string }) => id)).toContain("readability");
  });

  test("names the pan, which passes 0 %, and leaves masses unrounded", () => {
    const { fractions, chargeG, lossG } = json("TH-0510.csv");
    expect(fractions[0]).toMatchObject({ apertureUm: 1400, emptyG: 412.31, fullG: 418.02, netG: 5.71 });
    expect(fractions[0].retainedPct).toBe((100 * 5.71) / 299.9);
    expect(fractions.at(-1)).toEqual({
      pan: true,
      apertureUm: 0,
      emptyG: 354.1,
      fullG: 358.03,
      netG: 3.93,
      retainedPct: (100 * 3.93) / 299.9,
      coarserPct: 100,
      passingPct: 0,
    });
    expect([chargeG, lossG]).toEqual([300.2, 0.3]);
  });

  test("has null where nothing was weighed", () => {
    const result = json("aperture_um,net_g\n125,60\n63,30\npan,10\n");
    expect(result).toMatchObject({ chargeG: null, recoveredG: 100, lossG: null, lossPct: null });
    expect(result.fractions[0]).toMatchObject({ emptyG: null, fullG: null, netG: 60 });
    expect(result.verdict).toEqual({ test: "not checked", product: "not judged", limits: [] });
  });

  test("has a reason, not a number, for what can't be determined", () => {
    const { percentilesUm, values } = json("aperture_um,net_g\n125,60\n63,30\npan,10\n");
    expect(percentilesUm["50"]).toEqual({ determinable: false, reason: expect.any(String) });
    expect(values.finenessModulus).toEqual({ determinable: false, reason: expect.any(String) });
    expect(percentilesUm["25"]).toMatchObject({ determinable: true, unit: "um" });
  });

  test("carries the judged limits by their names", () => {
    const { verdict } = json("TH-0510.csv", product("TH-0510"));
    expect(verdict).toMatchObject({ test: "valid", product: "pass" });
    expect(verdict.limits.map((limit: { on: string }) => limit.on)).toEqual([
      "passingPct@1400",
      "passingPct@1000",
      "passingPct@710",
      "passingPct@500",
      "passingPct@355",
      "percentileUm@50",
      "effectiveSizeUm",
      "uniformityCoefficient",
    ]);
    expect(verdict.limits[5]).toMatchObject({ min: 690, max: 790, result: "within" });
  });

  test("tells why the test is valid or not, check by check, and what to do", () => {
    const lost = json("# charge_g: 310\naperture_um,net_g\n1000,100\n355,199\npan,1\n", product("TH-0510"));
    expect(EvaluationSchema.safeParse(lost).error).toBeUndefined();
    const loss = lost.procedure.checks.find(({ check }: { check: string }) => check === "loss");
    expect(loss).toMatchObject({ state: "not met", required: true });
    const notice = lost.notices.find(({ id }: { id: string }) => id === "loss-high");
    expect(notice).toMatchObject({ severity: "invalidates", limit: "0.3 %", remedy: expect.any(String) });
  });

  test("tells the fits with their parameters, without what only a drawing needs", () => {
    const { rosinRammler } = json("TH-0510.csv").models;
    expect(rosinRammler).toMatchObject({ determinable: true, sizeUm: expect.any(Number), spread: expect.any(Number) });
    expect(Object.keys(rosinRammler)).not.toContain("gridLine");
  });

  test("ends in a line end", () => expect(resultJson(assessed("TH-0510.csv"))).toMatch(/}\n$/));
});
