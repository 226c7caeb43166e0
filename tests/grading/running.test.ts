import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { grade } from "../../src/grading/grade.ts";
import { netOfWeighingG, sumG } from "../../src/grading/netMass.ts";
import { type PartlyWeighed, recoveredSoFarG, runningRows } from "../../src/grading/running.ts";

/** "1400:400/405.71 1000:398/- pan:354/358.5": empty and full g, "-" where one is missing. */
const rows = (text: string): PartlyWeighed[] =>
  text.split(" ").map((part) => {
    const [aperture = "", masses = ""] = part.split(":");
    const [emptyG, fullG] = masses.split("/").map((mass) => (mass === "-" ? null : Number(mass)));
    return { apertureUm: aperture === "pan" ? 0 : Number(aperture), emptyG: emptyG ?? null, fullG: fullG ?? null };
  });
const passing = (text: string, chargeG: number | null) => runningRows(rows(text), chargeG).map((row) => row.passingPct);
const nets = (text: string) => runningRows(rows(text), null).map((row) => row.netG);

const WHOLE = "1400:400/420 1000:400/430 pan:350/395";

describe("while masses are missing", () => {
  test("a net mass is there as soon as both weighings are, whatever the others", () => {
    expect(nets("1400:412.31/418.02 1000:398.74/- pan:-/-")).toEqual([5.71, null, null]);
    expect(nets("1400:-/418.02 1000:398.74/455.2 pan:354.1/-")).toEqual([null, 56.46, null]);
  });

  test("passing % is of the charge, from the top as far as no sieve is missing", () => {
    expect(passing("1400:400/420 1000:400/430 500:400/- pan:350/-", 100)).toEqual([80, 50, null, null]);
    expect(passing("1400:400/- 1000:400/430 pan:350/395", 100)).toEqual([null, null, null]);
  });

  test("without a charge, or with one of nothing, there is no percentage, never a zero", () => {
    expect(passing(WHOLE, null)).toEqual([null, null, null]);
    expect(passing(WHOLE, 0)).toEqual([null, null, null]);
  });

  test("the pan passes nothing once all is known, though something was lost", () => {
    expect(passing(WHOLE, 100)).toEqual([80, 50, 0]);
    expect(passing("1400:400/420 pan:350/395", 100)).toEqual([80, 0]);
  });

  test("what is recovered so far is the sum of what is weighed", () => {
    expect(recoveredSoFarG(runningRows(rows("1400:400/420.1 1000:400/- pan:350/395.2"), null))).toBe(65.3);
    expect(recoveredSoFarG(runningRows(rows("1400:400/- pan:350/-"), 100))).toBe(0);
  });

  test("rows keep their order and their masses", () => {
    const [first] = runningRows(rows(WHOLE), 100);
    expect(first).toEqual({ apertureUm: 1400, emptyG: 400, fullG: 420, netG: 20, passingPct: 80 });
    expect(runningRows(rows(WHOLE), 100).map((row) => row.apertureUm)).toEqual([1400, 1000, 0]);
  });

  test("a sieve in portions counts with all of them", () => {
    const portions = [{ apertureUm: 500, emptyG: 400, fullG: 410, earlierFullG: [420, 405] }, ...rows("pan:350/351")];
    expect(runningRows(portions, 50).map((row) => [row.netG, row.passingPct])).toEqual([
      [35, 30],
      [1, 0],
    ]);
  });
});

const massG = fc.integer({ min: 0, max: 50_000 }).map((n) => n / 100);
const anyRows: fc.Arbitrary<PartlyWeighed[]> = fc
  .array(fc.record({ netG: massG, known: fc.boolean() }), { minLength: 2, maxLength: 20 })
  .map((all) =>
    all.map(({ netG, known }, i) => ({
      apertureUm: i === all.length - 1 ? 0 : 5000 - i,
      emptyG: 400,
      fullG: known ? (40_000 + Math.round(netG * 100)) / 100 : null,
    })),
  );

describe("whatever is weighed so far", () => {
  test("passing % never rises from one sieve to the next finer one", () => {
    fc.assert(
      fc.property(anyRows, massG, (partly, chargeG) => {
        const known = runningRows(partly, chargeG).flatMap((row) => row.passingPct ?? []);
        const sieves = known.slice(0, known.length === partly.length ? -1 : undefined);
        for (const [i, pct] of sieves.entries()) if (i > 0) expect(pct).toBeLessThanOrEqual(sieves[i - 1] ?? 0);
      }),
    );
  });

  test("the percentages known are those of the whole test against its charge, and weighing on changes none", () => {
    fc.assert(
      fc.property(anyRows, fc.integer({ min: 1, max: 1000 }), (partly, spareG) => {
        const all = partly.map((row) => ({ ...row, fullG: row.fullG ?? 401 }));
        const fractions = all.map((row) => ({ ...row, netG: netOfWeighingG(row) ?? 0 }));
        const chargeG = sumG([...fractions.map((f) => f.netG), spareG]);
        const whole = grade(fractions, { basis: "charge", chargeG, washedG: null });
        const graded = whole.ok ? whole.value.rows.map((row) => row.passingPct) : [];
        const before = runningRows(partly, chargeG).map((row) => row.passingPct);
        const after = runningRows(all, chargeG).map((row) => row.passingPct);
        for (const [i, pct] of after.entries()) {
          expect(pct).toBeCloseTo(graded[i] ?? Number.NaN, 9);
          if (before[i] !== null) expect(before[i]).toBe(pct);
        }
      }),
    );
  });
});

test("a sieve lighter full than empty leaves itself and all below without a percentage: 180 % passing says nothing", () => {
  const rows = runningRows(
    [
      { apertureUm: 1000, emptyG: 400, fullG: 410 },
      { apertureUm: 500, emptyG: 400, fullG: 320 },
      { apertureUm: 250, emptyG: 400, fullG: 420 },
    ],
    100,
  );
  expect(rows.map((row) => row.passingPct)).toEqual([90, null, null]);
  expect(rows.map((row) => row.netG)).toEqual([10, -80, 20]);
});
