import { describe, expect, test } from "vitest";
import { assessTest } from "../../src/assess/assessTest.ts";
import { envelopeOf, soFarOf } from "../../src/run/soFar.ts";
import { EMPTY_G, FILTER_SAND, FULL_G, Hands } from "./hands.ts";

const weighedFull = (rows: number, chargeG = "300.2") =>
  soFarOf(new Hands().setsOut(chargeG).weighs(EMPTY_G).shakes().weighs(FULL_G.slice(0, rows)).run.draft);

describe("while masses are missing", () => {
  test("nothing is shown before a value exists, never a zero", () => {
    const { rows, recoveredG, points } = weighedFull(0);
    expect(rows.every((row) => row.netG === null && row.passingPct === null)).toBe(true);
    expect(recoveredG).toBe(0);
    expect(points).toEqual([]);
  });

  test("net masses at once, passing % of the charge row by row from the top", () => {
    const { rows, recoveredG } = weighedFull(2);
    expect(rows[0]).toMatchObject({ netG: 5.71 });
    expect(rows[0]?.passingPct).toBeCloseTo(100 - 571 / 300.2, 10);
    expect(rows[1]?.passingPct).toBeCloseTo(100 - 6217 / 300.2, 10);
    expect(rows[2]?.passingPct).toBeNull();
    expect(recoveredG).toBe(62.17);
  });

  test("without a charge no percentage until all is weighed", () => {
    const hands = new Hands().enter(5).weighs(EMPTY_G).shakes().weighs(FULL_G.slice(0, 5));
    expect(soFarOf(hands.run.draft).rows.every((row) => row.passingPct === null)).toBe(true);
  });

  test("limits on passing are judged as soon as they can be", () => {
    const { rows } = weighedFull(1);
    expect(rows[0]?.limit).toMatchObject({ min: 95, max: 100, result: "within" });
    expect(rows[1]?.limit).toEqual({ min: 75, max: 95 });
    expect(rows[2]?.limit).toBeNull();
  });

  test("the curve is read between known points only", () => {
    const { passingAt } = weighedFull(2);
    expect(passingAt(1200)).toBeGreaterThan(79);
    expect(passingAt(800)).toBeNull();
  });

  test("a gap further up leaves the rows below it without a percentage", () => {
    const hands = new Hands().setsOut().weighs(EMPTY_G).shakes();
    hands.does({ type: "rowDown" }).enters(String(FULL_G[1]));
    expect(soFarOf(hands.run.draft).rows[1]).toMatchObject({ netG: 56.46, passingPct: null });
  });
});

test("once all is weighed the figures are those of the assessment", () => {
  const { draft } = new Hands().tests().run;
  const assessed = assessTest(draft);
  expect(assessed.ok && assessed.value.fractions.map((f) => f.passingPct)).toEqual(
    soFarOf(draft).rows.map((r) => r.passingPct),
  );
});

test("limits on what is coarser bound the curve from the other side, limits on single fractions don't", () => {
  const product = {
    ...FILTER_SAND,
    envelope: [
      { apertureUm: 710, coarserPct: { min: 40, max: 70 } },
      { apertureUm: 500, retainedPct: { max: 40 } },
    ],
  };
  expect(envelopeOf(product)).toEqual([{ apertureUm: 710, minPct: 30, maxPct: 60 }]);
});
