import { describe, expect, test } from "vitest";
import { emptyLedger } from "../../src/care/ledger/ledger.ts";
import { take } from "../../src/care/ledger/take.ts";
import { tareDrawing, tareLegend } from "../../src/report/sieveTare.ts";
import { done, known, S710, tests } from "../screens/sieves/world.ts";

const CHOICE = { readabilityG: 0.01 };

function drawn(
  count: number,
  rise: Parameters<typeof tests>[1] = null,
  more: Parameters<typeof known>[0] = [],
  atMost = 99,
) {
  const entries = [...tests(count, rise), ...more];
  const ledger = emptyLedger();
  for (const entry of entries) take(ledger, entry);
  const condition = known(entries).conditions.sieves.find(({ serial }) => serial === S710);
  const life = ledger.lives.get(S710);
  if (condition === undefined || life === undefined) throw new Error("not known");
  return tareDrawing(life, [...ledger.notes.values()], condition, CHOICE, atMost);
}

describe("empty masses as they are drawn", () => {
  test("with the cleaned level and the action limit either way, those outside under another sign", () => {
    const drawing = drawn(20, { from: 14, eachG: 0.03 });
    expect(drawing?.lines.map(({ kind, label }) => [kind, label])).toEqual([
      ["centre", "clean 402.00"],
      ["control", "+ 402.05"],
      ["control", "- 401.95"],
    ]);
    expect(drawing?.lines[0]?.ys).toHaveLength(20);
    const [points = []] = drawing?.series ?? [];
    for (const { y, sign } of points) expect(sign).toBe(Math.abs((y ?? 0) - 402) > 0.0501 ? "signal" : "point");
    expect(points.filter(({ sign }) => sign === "signal").length).toBeGreaterThan(2);
    expect(drawing?.nowG).toBe(points.at(-1)?.y);
  });

  test("without a level while that is not known, and then nothing is outside", () => {
    const drawing = drawn(5, { from: 1, eachG: 2 });
    expect(drawing).toMatchObject({ weighings: 5, band: null, lines: [] });
    expect(drawing?.series[0]?.every(({ sign }) => sign === "point")).toBe(true);
  });

  test("the latest so many, and how many there are", () => {
    expect(drawn(20, null, [], 12)).toMatchObject({ drawn: 12, weighings: 20 });
  });

  test("a cleaning stands before the first weighing after it, as far as that is drawn", () => {
    const cleaned = done({ did: "cleaning", serials: [S710], how: "brush" }, "2026-11-11T07:00:00+00:00");
    // Tests lie three hours apart from the 10th, 6 h on: the ninth is the first after it.
    expect(drawn(20, null, [cleaned])?.changes).toEqual([9]);
    expect(drawn(20, null, [cleaned], 5)?.changes).toEqual([]);
  });

  test("only what was weighed since a repair", () => {
    const repaired = done({ did: "repair", serials: [S710], what: "rim" }, "2026-11-11T07:00:00+00:00");
    expect(drawn(20, null, [repaired])?.weighings).toBe(11);
    expect(drawn(3, null, [done({ did: "repair", serials: [S710], what: "rim" })])).toBeNull();
  });
});

test("every sign is explained, without Unicode too", () => {
  expect(tareLegend()).toBe("empty mass ●  outside ◆  clean ··  told from ╌╌ on  cleaned ┊");
  expect(tareLegend(true)).toMatch(/^[\x20-\x7e]+$/);
});
