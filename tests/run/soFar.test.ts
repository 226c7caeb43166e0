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
    expect(rows[1]?.limit).toEqual({ min: 75, max: 95, of: "passingPct" });
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

describe("the envelope as bounds of the curve", () => {
  test("has what passes as it is, what is coarser turned round, coarsest first, open sides open", () => {
    const envelope = [
      { apertureUm: 355, passingPct: { max: 5 } },
      { apertureUm: 1400, coarserPct: { max: 10 } },
      { apertureUm: 710, coarserPct: { min: 40 } },
    ];
    expect(envelopeOf({ ...FILTER_SAND, envelope })).toEqual([
      { apertureUm: 1400, minPct: 90, maxPct: null },
      { apertureUm: 710, minPct: null, maxPct: 60 },
      { apertureUm: 355, minPct: null, maxPct: 5 },
    ]);
  });

  test("of a product without one has no bounds; limits on values are none of them", () => {
    const { envelope: _envelope, ...valuesOnly } = FILTER_SAND;
    expect(envelopeOf(valuesOnly)).toEqual([]);
  });
});

describe("limits while weighing", () => {
  const rowsFor = (product: typeof FILTER_SAND, rows = 6) =>
    soFarOf(new Hands(undefined, product).setsOut().weighs(EMPTY_G).shakes().weighs(FULL_G.slice(0, rows)).run.draft)
      .rows;

  test("missed says on which side, as soon as the row is weighed", () => {
    const envelope = [
      { apertureUm: 1400, passingPct: { min: 99 } },
      { apertureUm: 1000, passingPct: { max: 50 } },
    ];
    expect(rowsFor({ ...FILTER_SAND, envelope }, 2).map((row) => row.limit?.result)).toEqual([
      "below",
      "above",
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });

  test("follow the product's decision: rounded first where it says so", () => {
    const envelope = [{ apertureUm: 1000, passingPct: { max: 79 } }];
    expect(rowsFor({ ...FILTER_SAND, envelope })[1]?.limit?.result).toBe("above");
    const decision = { rule: "simple", compare: { roundedTo: 1 } } as const;
    expect(rowsFor({ ...FILTER_SAND, envelope, decision })[1]?.limit?.result).toBe("within");
  });

  test("on what a sieve retains or what is coarser are judged as they are given", () => {
    const envelope = [
      { apertureUm: 1400, coarserPct: { max: 3 } },
      { apertureUm: 1000, retainedPct: { max: 1 } },
    ];
    for (const rows of [2, 6]) {
      expect(rowsFor({ ...FILTER_SAND, envelope }, rows).map(({ limit }) => limit && [limit.of, limit.result])).toEqual(
        [["coarserPct", "within"], ["retainedPct", "above"], null, null, null, null],
      );
    }
    expect(rowsFor({ ...FILTER_SAND, envelope }, 1)[1]?.limit).toEqual({ min: null, max: 1, of: "retainedPct" });
  });

  test("judge nothing where more was recovered than was put on, nor where only all of the charge is found", () => {
    const product = { ...FILTER_SAND, envelope: [{ apertureUm: 355, passingPct: { max: 0.5 } }] };
    const finest = (chargeG: string) => {
      const hands = new Hands(undefined, product).setsOut(chargeG).weighs(EMPTY_G).shakes();
      for (const grams of FULL_G.slice(0, 5)) {
        hands.enters(String(grams));
        if (hands.run.doubt) hands.enter();
      }
      return soFarOf(hands.run.draft).rows[4];
    };
    const [over, all, left] = [finest("290"), finest("295.4"), finest("296")];
    expect(over?.passingPct).toBeLessThan(0);
    expect(over).toMatchObject({ impossible: true });
    expect(over?.limit).not.toHaveProperty("result");
    expect(all).toMatchObject({ impossible: false });
    expect(all?.limit).not.toHaveProperty("result");
    expect(left?.limit).toMatchObject({ result: "within" });
  });
});

test("a product that wants percent of the charge shows the same passing % before and after the last mass", () => {
  const product = { ...FILTER_SAND, method: { ...FILTER_SAND.method, basis: "charge" as const } };
  const at = (rows: number) =>
    soFarOf(new Hands(undefined, product).setsOut().weighs(EMPTY_G).shakes().weighs(FULL_G.slice(0, rows)).run.draft)
      .rows;
  const [before, after] = [at(5), at(6)];
  for (let row = 0; row < 5; row++)
    expect(after[row]?.passingPct).toBeCloseTo(before[row]?.passingPct ?? Number.NaN, 10);
});
