import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { modelChart } from "../../src/chart/modelChart.ts";
import type { ModelFit } from "../../src/grading/models/fit.ts";
import { fitModels } from "../../src/grading/models/fitModels.ts";
import { MODEL_IDS, type ModelId } from "../../src/grading/models/model.ts";
import { MODELS } from "../../src/grading/models/table.ts";
import { anyFractions, gradedOf, passing } from "../grading/stack.ts";
import { anyHeight, anyWidth, expectToFill, picture } from "./drawing.ts";

const NO_FIT: ModelFit = { determinable: false, reason: "too few sieves" };
/** Log-normal: median 1.00 mm, geometric standard deviation root 2, a sieve at each of its steps. */
const SAND = "2000:98.14 1414:84.13 1000:50 707:15.87 500:1.86";

const PICTURE = `
99┤
95┤                                   ╭────●
84┤                             ╭●────╯
75┤                       ╭─────╯
50┤                 ╭──●──╯
25┤           ╭─────╯
16┤     ╭────●╯
 5┤●────╯
 1┤
  └┬─────────┬─────────┬─────────┬─────────┬
  500       707 um     1        1.41    2 mm
`;

function drawn(
  id: ModelId,
  text: string,
  size = { width: 50, height: 12 },
  change: { fit?: ModelFit; ascii?: boolean } = {},
) {
  const grading = passing(text);
  const fit = change.fit ?? fitModels(grading, { fit: "least-squares" })[id];
  return modelChart({ fractions: grading.rows, model: MODELS[id], fit, ascii: change.ascii ?? false, ...size });
}
const cells = (rows: readonly string[], glyph: string) =>
  rows.flatMap((row, y) => [...row].flatMap((cell, x) => (cell === glyph ? [[x, y] as const] : [])));

describe("a grading on the grid of a model", () => {
  test("shows each sieve where the grid has it, on the line that fits, apertures along and percent up", () => {
    expect(picture(drawn("logNormal", SAND, { width: 44, height: 11 }))).toBe(PICTURE);
  });

  test("has its points on a straight line where the model holds exactly", () => {
    const points = cells(drawn("logNormal", SAND, { width: 82, height: 42 }), "●");
    expect(points).toHaveLength(5);
    const steps = points.slice(1).map(([x, y], i) => (y - (points[i]?.[1] ?? 0)) / (x - (points[i]?.[0] ?? 0)));
    for (const step of steps) expect(step).toBeCloseTo(steps[0] ?? 0, 0);
  });

  test("without a fit shows the points and no line", () => {
    const without = drawn("logNormal", SAND, { width: 50, height: 12 }, { fit: NO_FIT });
    expect(cells(without, "●")).toHaveLength(5);
    expect(without.join("")).not.toMatch(/[─╭╮╰╯].*●|●.*[╭╮╰╯]/);
  });

  test("leaves sieves out that all or nothing passes, but names them along the axis", () => {
    const rows = drawn("logNormal", "4000:100 2000:100 1000:60 500:20 250:0 125:0");
    expect(cells(rows, "●")).toHaveLength(2);
    expect(rows.at(-1)).toContain("4 mm");
    expect(rows.at(-1)).toContain("125");
  });

  test("marks percentages of the model's own grid about the points, and no others", () => {
    const marks = drawn("logNormal", SAND, { width: 60, height: 30 })
      .map((row) => /^ *([\d.]+)/.exec(row)?.[1])
      .filter((mark) => mark !== undefined)
      .slice(0, -1);
    expect(marks.length).toBeGreaterThan(4);
    for (const mark of marks) expect(MODELS.logNormal.ticksPct).toContain(Number(mark));
    expect(marks.map(Number)).toEqual(marks.map(Number).toSorted((a, b) => b - a));
  });

  test("keeps to ASCII where the terminal has no more", () => {
    expect(drawn("rosinRammler", SAND, { width: 50, height: 12 }, { ascii: true }).join("\n")).toMatch(
      /^[\x20-\x7e\n]+$/,
    );
  });
});

describe("degenerate gradings", () => {
  test.each([
    ["1000:50", "one sieve"],
    ["1000:100", "one sieve that all passes"],
    ["1000:0", "one sieve that nothing passes"],
    ["2000:100 1000:100 500:0", "a step"],
    ["2000:50 1000:50 500:50", "a flat curve"],
    ["2000:99.999999 1000:0.000001", "all but a step"],
  ])("%s, %s, still fill their place in every model", (text) => {
    for (const id of MODEL_IDS) expectToFill(drawn(id, text), 50, 12);
  });

  test("without any sieve there is an empty grid", () => {
    const rows = modelChart({ fractions: [], model: MODELS.logNormal, fit: NO_FIT, width: 30, height: 8 });
    expectToFill(rows, 30, 8);
    expect(cells(rows, "●")).toEqual([]);
  });

  test("a line far off the points does not leave the grid", () => {
    const grading = passing(SAND);
    const { logNormal } = fitModels(grading, { fit: "least-squares" });
    if (!logNormal.determinable) throw new Error(logNormal.reason);
    for (const gridLine of [
      { lnSizeUm: 0, slope: 1e6 },
      { lnSizeUm: 700, slope: 1e-9 },
      { lnSizeUm: -700, slope: 1e300 },
    ]) {
      expectToFill(drawn("logNormal", SAND, { width: 40, height: 10 }, { fit: { ...logNormal, gridLine } }), 40, 10);
    }
  });
});

test("whatever was graded, in whatever place: height rows of exactly width columns", () => {
  fc.assert(
    fc.property(anyFractions, anyWidth, anyHeight, fc.boolean(), (fractions, width, height, ascii) => {
      const grading = gradedOf(fractions);
      const fits = fitModels(grading, { fit: "least-squares" });
      for (const id of MODEL_IDS) {
        const chart = { fractions: grading.rows, model: MODELS[id], fit: fits[id], width, height, ascii };
        expectToFill(modelChart(chart), width, height);
      }
    }),
    { numRuns: 60 },
  );
});
