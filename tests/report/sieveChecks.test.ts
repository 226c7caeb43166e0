import { describe, expect, test } from "vitest";
import type { CheckNote } from "../../src/care/apertureChosen.ts";
import { checkHistory } from "../../src/care/reference/history.ts";
import { checkedWords, checksDrawing, checksLegend } from "../../src/report/sieveChecks.ts";
import { sieveOf } from "../care/knownWorld.ts";

const SIEVE = sieveOf("S-0710-1", 710);
/** Passes so many % of a material that rises by 1 % an um about 710 um. */
const run = (number: number, day: string, passingPct: number): CheckNote => ({
  number,
  day,
  at: `${day}T08:00:00+01:00`,
  care: {
    did: "reference check",
    material: {
      schema: "sievewright.referenceMaterial/1",
      code: "TH-RM1",
      name: "invented",
      certificate: { day: "2026-01-10", laboratory: "Invented Metrology" },
      points: [
        { apertureUm: 760, passingPct: 100, expandedPct: 1 },
        { apertureUm: 660, passingPct: 0, expandedPct: 1 },
      ],
    },
    found: [
      { serial: "S-0710-1", apertureUm: 710, passingPct, expandedPct: 2 },
      { serial: "S-0500-1", apertureUm: 500, passingPct: 0 },
    ],
  },
});
const HISTORY = checkHistory("S-0710-1", [
  run(30, "2026-11-03", 90),
  run(10, "2026-09-03", 50),
  run(20, "2026-10-03", 55),
]);
const umOf = (at: number) => {
  const effective = HISTORY[at]?.checked.effectiveUm;
  return effective?.determinable ? effective.value : Number.NaN;
};

describe("the runs of a reference material on a sieve", () => {
  test("stand in the order of the log, each with what it said of this sieve alone", () => {
    expect(HISTORY.map(({ number, material }) => [number, material])).toEqual([
      [10, "TH-RM1"],
      [20, "TH-RM1"],
      [30, "TH-RM1"],
    ]);
    expect(umOf(0)).toBeCloseTo(Math.sqrt(660 * 760), 6);
    expect(checkHistory("S-9", [run(1, "2026-11-03", 50)])).toEqual([]);
  });

  test("are drawn against the nominal aperture and Y; what lies beyond Y bears another sign", () => {
    const drawing = checksDrawing(HISTORY, SIEVE, 60);
    expect(drawing?.series[0]?.map(({ sign }) => sign)).toEqual(["point", "point", "signal"]);
    expect(drawing?.lines.map(({ label }) => label)).toEqual(["nominal 710.0", "+Y 734.7", "-Y 685.3"]);
    expect([drawing?.firstAt.slice(0, 10), drawing?.lastAt.slice(0, 10)]).toEqual(["2026-09-03", "2026-11-03"]);
    expect(checksDrawing(HISTORY, SIEVE, 2)?.drawn).toBe(2);
    expect(checksDrawing([], SIEVE, 60)).toBeNull();
    expect(checksDrawing(HISTORY, { ...SIEVE, cloth: "perforated plate" }, 60)?.lines).toHaveLength(1);
  });

  test("that told no aperture are left out of the chart and told in words", () => {
    const outside = checkHistory("S-0500-1", [run(10, "2026-09-03", 50)]);
    expect(checksDrawing(outside, sieveOf("S-0500-1", 500), 60)?.drawn ?? 0).toBeLessThanOrEqual(1);
    const beyond = checkHistory("S-0710-1", [
      {
        ...run(5, "2026-09-01", 50),
        care: {
          ...run(5, "", 50).care,
          found: [{ serial: "S-0710-1", apertureUm: 710, passingPct: 50 }],
          material: {
            ...run(5, "", 50).care.material,
            points: [
              { apertureUm: 760, passingPct: 40, expandedPct: 1 },
              { apertureUm: 660, passingPct: 0, expandedPct: 1 },
            ],
          },
        },
      },
    ]);
    expect(checksDrawing(beyond, SIEVE, 60)).toBeNull();
    const [only] = beyond;
    expect(only && checkedWords(only, SIEVE)).toContain("outside the certified curve");
  });

  test("are told in words with score, size, range and how it stands to Y", () => {
    const [first, , last] = HISTORY;
    expect(first && checkedWords(first, SIEVE)).toMatch(
      /^agrees \(En -?\d\.\d\d\): passed 50\.00 %, sieves like 708\.2 um \(70\d\.\d um to 7\d\d\.\d um\), within Y$/,
    );
    expect(last && checkedWords(last, SIEVE)).toMatch(/DISAGREES|disagrees/);
    expect(last && checkedWords(last, SIEVE)).toContain("BEYOND Y (710 um +/- 24.7 um)");
    expect(checksLegend(true)).toContain("nominal");
  });
});
