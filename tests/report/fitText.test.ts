import { describe, expect, test } from "vitest";
import { MODEL_IDS } from "../../src/grading/models/model.ts";
import { MODELS } from "../../src/grading/models/table.ts";
import { fitText } from "../../src/report/fitText.ts";
import { assessed, product } from "./assessed.ts";

const SAND = "aperture_um,net_g\n1400,5.71\n1000,56.46\n710,112.3\n500,92.18\n355,28.75\npan,4.5\n";
const STEP = "aperture_um,net_g\n1400,0\n1000,0\n500,100\npan,0\n";
const { models } = assessed(SAND);

describe("what a fit says", () => {
  test("is its parameters with one standard error each, how well it fits, on which sieves and by which rule", () => {
    expect(fitText(MODELS.logNormal, models.logNormal)).toMatch(
      /^log-normal: median size \d+ um ± [\d.]+ um, geometric standard deviation 1\.\d\d ± [\d.]+; r2 0\.\d{4}, rms [\d.]+ % points; 5 sieves, 355 um to 1\.40 mm; least squares on passing %; ± is one standard error$/,
    );
  });

  test.each(MODEL_IDS)("of %s names every parameter of the model", (id) => {
    const text = fitText(MODELS[id], models[id]);
    for (const { label } of MODELS[id].parameters) expect(text).toContain(label);
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
    expect(text.startsWith(`${MODELS[id].label}: `)).toBe(true);
  });

  test("shows the parameters that were fitted, a size with its unit and a pure number without one", () => {
    const fit = models.rosinRammler;
    if (!fit.determinable || fit.model !== "rosinRammler") throw new Error("no fit");
    const text = fitText(MODELS.rosinRammler, fit);
    expect(text).toContain(` ${Math.round(fit.sizeUm)} um ± `);
    expect(text).toContain(` ${fit.spread.toPrecision(3)} ± `);
  });

  test("by the line names that rule and the sieves that it used", () => {
    const line = assessed(SAND, product("TH-0510", { method: { fit: "line" } })).models.logNormal;
    expect(fitText(MODELS.logNormal, line)).toContain("straight line on its own grid, 5 to 95 %");
    expect(fitText(MODELS.logNormal, line)).toContain("3 sieves, 500 um to 1.00 mm");
  });

  test.each(MODEL_IDS)("of %s where there is none is the reason", (id) => {
    const none = assessed(STEP).models[id];
    expect(none.determinable).toBe(false);
    expect(fitText(MODELS[id], none)).toBe(`${MODELS[id].label}: ${none.determinable ? "" : none.reason}`);
  });
});
