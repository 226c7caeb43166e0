import { describe, expect, test } from "vitest";
import { fairLoadG } from "../../src/procedure/load/fairLoad.ts";
import { frameAreaMm2 } from "../../src/procedure/load/frame.ts";
import { astmC136, en9331 } from "../../src/procedure/rules/aggregates.ts";
import type { LoadRule } from "../../src/procedure/rules/ruleSet.ts";
import type { Frame } from "../../src/record/procedure.ts";
import published from "./examples/procedure-limits.json" with { type: "json" };

const limitG = (rule: LoadRule | null, apertureMm: number, frame: Frame): number => {
  const found = rule === null ? null : fairLoadG(rule, apertureMm * 1000, frame);
  return found?.determinable ? found.value : Number.NaN;
};

describe("ASTM C136/C136M: 200 g and 469 g on 8 in. and 12 in. frames (seen, checklist of 09/2020)", () => {
  test.each(published.c136Load.figuresG.rows)("$frameMm mm: $limitG g", (row) =>
    expect(Math.round(limitG(astmC136.load, 0.6, row.frameMm))).toBe(row.limitG),
  );
});

describe("ASTM C136/C136M-19 clause 8: table in kg worked out from the formula (formula seen, table computed)", () => {
  const { frames, rows } = published.c136Load.tableKg;

  test.each(frames)("effective area of $frame is $areaM2 m2", ({ frame, areaM2 }) =>
    expect(Math.abs(frameAreaMm2(frame, 12.7) / 1e6 - areaM2)).toBeLessThan(0.000_006),
  );

  // Rows below 4.75 mm are printed to 1 g and at 0.857 against 0.8575 kg rounded down; the others to 10 g.
  test.each(rows)("$apertureMm mm: $limitKg kg", ({ apertureMm, limitKg }) => {
    const within = apertureMm < 4.75 ? 0.00052 : 0.0051;
    frames.forEach(({ frame }, i) => {
      expect(Math.abs(limitG(astmC136.load, apertureMm, frame) / 1000 - limitKg[i]!)).toBeLessThanOrEqual(within);
    });
  });
});

describe("EN 933-1: 0.005 A sqrt(d), A the whole sieve (formula seen in the BRE cross-test, tables computed)", () => {
  const rows = published.en933Load.tables.flatMap(({ frameMm, rows: limits }) =>
    limits.map((row) => ({ frameMm, ...row })),
  );

  test.each(rows)("$apertureMm mm in a frame of $frameMm mm: $limitG g", ({ frameMm, apertureMm, limitG: printedG }) =>
    expect(Math.abs(limitG(en9331.load, apertureMm, frameMm) - printedG)).toBeLessThanOrEqual(0.0501),
  );

  // The digest rounds to whole grams.
  test.each([
    [0.063, 39],
    [0.125, 56],
    [0.25, 79],
    [0.5, 111],
    [1, 157],
    [2, 222],
    [4, 314],
    [8, 444],
    [16, 628],
    [31.5, 882],
    [63, 1247],
  ])("%d mm in a frame of 200 mm: %d g", (apertureMm, wholeG) =>
    expect(Math.round(limitG(en9331.load, apertureMm, 200))).toBe(wholeG),
  );
});

describe("the two rules against each other (computed)", () => {
  const perM2 = (rule: LoadRule | null, apertureMm: number): number => {
    const frame = { widthMm: 1000, lengthMm: 1000 };
    return limitG(rule, apertureMm, frame) / 1000;
  };

  test("meet per unit area at 1.96 mm", () =>
    expect(perM2(en9331.load, 1.96) / perM2(astmC136.load, 1.96)).toBeCloseTo(1, 6));

  test("differ five times at 63 um, EN 933-1 being the stricter", () => {
    const factor = limitG(astmC136.load, 0.063, 203) / limitG(en9331.load, 0.063, 200);
    expect(factor).toBeGreaterThan(4.9);
    expect(factor).toBeLessThan(5.2);
  });

  test("at 16 mm: 0.63 kg against 1.14 kg on 200 mm and 8 in. frames", () => {
    expect(limitG(en9331.load, 16, 200) / 1000).toBeCloseTo(0.63, 2);
    expect(limitG(astmC136.load, 16, 203) / 1000).toBeCloseTo(1.14, 2);
  });

  test("have the standing that was found: both formulas seen", () =>
    expect([astmC136.load?.standing, en9331.load?.standing]).toEqual(["seen", "seen"]));
});
