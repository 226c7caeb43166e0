import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { grade } from "../../src/grading/grade.ts";
import type { GradingMasses } from "../../src/grading/grading.ts";
import { expectNear } from "./near.ts";
import { anyFractions, fraction, fractionsOf, graded, gradedOf } from "./stack.ts";

const column = (text: string, key: "retainedPct" | "coarserPct" | "passingPct", masses = {}) =>
  graded(text, masses).rows.map((row) => row[key]);

const refusal = (text: string, masses: Partial<GradingMasses> = {}): string => {
  const outcome = grade(fractionsOf(text), { basis: "recovered", chargeG: null, washedG: null, ...masses });
  return outcome.ok ? "graded" : outcome.reason;
};

describe("of the recovered total", () => {
  test("worked by hand: 2 + 4 + 4 + 6 + 2 + 2 of 20 g", () => {
    const text = "2000:2 1000:4 500:4 250:6 125:2 62:2 pan:0";
    expect(column(text, "retainedPct")).toEqual([10, 20, 20, 30, 10, 10, 0]);
    expect(column(text, "coarserPct")).toEqual([10, 30, 50, 80, 90, 100, 100]);
    expect(column(text, "passingPct")).toEqual([90, 70, 50, 20, 10, 0, 0]);
  });

  test("the coarsest comes first and the pan last, whatever the order of the rows", () => {
    expect(gradedOf(fractionsOf("pan:5 250:30 1000:25 500:40"))).toEqual(graded("1000:25 500:40 250:30 pan:5"));
  });

  test("an empty pan passes exactly 0 %, an empty top sieve exactly 100 %", () => {
    const [top, , finest] = graded("1000:0 500:0.1 250:0.2 pan:0").rows;
    expect([top?.passingPct, finest?.passingPct]).toEqual([100, 0]);
  });

  test("an empty sieve makes an exact plateau", () => {
    const [, before, after] = graded("1000:7.31 500:4.44 355:0 250:9.07 pan:0.33").rows;
    expect(after?.passingPct).toBe(before?.passingPct);
  });

  test("the charge closes the balance but is not the basis", () => {
    const grading = graded("1000:25 500:74.9 pan:0", { chargeG: 100 });
    expect(grading).toMatchObject({ totalG: 99.9, recoveredG: 99.9, lossG: 0.1, washLossG: 0 });
    expectNear(grading.lossPct ?? Number.NaN, 0.1, 1e-12);
  });

  test("without a charge no loss is told", () => {
    expect(graded("1000:25 pan:75")).toMatchObject({ chargeG: null, lossG: null, lossPct: null });
  });

  test("a gain is a negative loss", () => expect(graded("1000:60 pan:41", { chargeG: 100 }).lossG).toBe(-1));
});

describe("of the charge", () => {
  test("passing is 100 % less what is retained above, so a loss counts as passing the finest sieve", () => {
    const rows = graded("1000:25 500:50 pan:24", { basis: "charge", chargeG: 100 }).rows;
    expect(rows.map((row) => row.passingPct)).toEqual([75, 25, 0]);
    expect(rows.map((row) => row.retainedPct)).toEqual([25, 50, 24]);
    expect(rows.map((row) => row.coarserPct)).toEqual([25, 75, 100]);
  });

  test("a stack that gained mass passes 0 %, never less, and its coarser % stays at 100", () => {
    const rows = graded("1000:60 500:40.5 pan:0", { basis: "charge", chargeG: 100 }).rows;
    expect(rows.map((row) => row.passingPct)).toEqual([40, 0, 0]);
    expect(rows.map((row) => row.coarserPct)).toEqual([60, 100, 100]);
  });
});

describe("washed", () => {
  const washed = { chargeG: 500, washedG: 480 };
  const text = "1000:100 500:200 75:170 pan:9";

  test("the wash loss joins the pan's percentages, its net mass stays as weighed", () => {
    const pan = graded(text, { basis: "charge", ...washed }).rows.at(-1);
    expect(pan).toMatchObject({ netG: 9, passingPct: 0, coarserPct: 100 });
    expectNear(pan?.retainedPct ?? 0, (100 * (20 + 9)) / 500, 1e-14);
  });

  test("fines by the rule of ASTM C117 with C136: A + 100 pan/B passes 75 um of a closed balance", () => {
    const rows = graded("1000:100 500:200 75:171 pan:9", { basis: "charge", ...washed }).rows;
    expectNear(rows[2]?.passingPct ?? 0, (100 * (500 - 480)) / 500 + (100 * 9) / 500, 1e-14);
  });

  test("on the recovered basis 100 % is what was recovered and what was washed out", () => {
    const grading = graded(text, washed);
    expect(grading).toMatchObject({ recoveredG: 479, washLossG: 20, totalG: 499 });
    expectNear(grading.rows[2]?.passingPct ?? 0, (100 * 29) / 499, 1e-14);
  });

  test("the balance is closed on the dry mass after washing", () => {
    const grading = graded(text, washed);
    expect(grading.lossG).toBe(1);
    expectNear(grading.lossPct ?? 0, 100 / 480, 1e-14);
  });
});

describe("refuses, with what to do", () => {
  test.each([
    ["pan:5", {}, "no sieve was weighed: at least one sieve and the pan are needed"],
    ["1000:5 500:5", {}, "the pan is missing: weigh it"],
    ["1000:5 500:5 1000:3 pan:1", {}, "the 1.00 mm sieve is there twice: keep one of the two"],
    ["1000:5 pan:1 pan:2", {}, "the pan is there twice: keep one of the two"],
    ["1000:0 500:0 pan:0", {}, "all masses are zero: there is nothing to grade"],
    ["1000:5 500:-0.5 pan:0", {}, "the 500 um sieve holds -0.5 g, less than nothing: weigh it again"],
    ["1000:NaN pan:3", {}, "the 1.00 mm sieve has no net mass: weigh it"],
    ["-5:1 pan:3", {}, "an aperture of -5 um cannot be: it must be above 0 (the pan is 0)"],
    ["Infinity:1 pan:3", {}, "an aperture of Infinity um cannot be: it must be above 0 (the pan is 0)"],
    ["1000:5 pan:1", { basis: "charge" }, "percentages of the charge need the charge: weigh it"],
    ["1000:5 pan:1", { chargeG: 0 }, "the charge must be above 0 g"],
    ["1000:5 pan:1", { washedG: 5 }, "a washed test needs the dry mass before washing"],
    ["1000:5 pan:1", { chargeG: 6, washedG: 0 }, "the dry mass after washing must be above 0 g"],
    ["1000:5 pan:1", { chargeG: 6, washedG: 7 }, "the dry mass after washing (7 g) is above that before it (6 g)"],
  ] satisfies [string, Partial<GradingMasses>, string][])("%s with %j: %s", (text, masses, reason) => {
    expect(refusal(text, masses)).toBe(reason);
  });

  test("no rows at all", () => {
    const outcome = grade([], { basis: "recovered", chargeG: null, washedG: null });
    expect(outcome).toEqual({ ok: false, reason: "no sieve was weighed: at least one sieve and the pan are needed" });
  });

  test("masses that no balance weighs, rather than percentages that are no numbers", () => {
    const dust = [fraction(1000, 5e-324), fraction(0, 0)];
    expect(grade(dust, { basis: "recovered", chargeG: null, washedG: null }).ok).toBe(false);
    expect(grade(fractionsOf("1000:5 pan:0"), { basis: "charge", chargeG: 5e-324, washedG: null }).ok).toBe(false);
  });
});

describe("whatever the masses", () => {
  test("masses times a constant change no percentage", () => {
    fc.assert(
      fc.property(anyFractions, fc.constantFrom(1e-3, 0.37, 2, 7.3, 1000), (fractions, factor) => {
        const scaled = gradedOf(fractions.map((f) => ({ ...f, netG: f.netG * factor }))).rows;
        gradedOf(fractions).rows.forEach((row, i) => {
          expectNear(scaled[i]?.retainedPct ?? Number.NaN, row.retainedPct, 0, 1e-8);
          expectNear(scaled[i]?.passingPct ?? Number.NaN, row.passingPct, 0, 1e-8);
        });
      }),
    );
  });

  test("the order of the rows does not matter", () => {
    const shuffled = anyFractions.chain((fractions) =>
      fc.tuple(fc.constant(fractions), fc.shuffledSubarray(fractions, { minLength: fractions.length })),
    );
    fc.assert(
      fc.property(shuffled, ([one, other]) => {
        expect(gradedOf(other)).toEqual(gradedOf(one));
      }),
    );
  });

  test("passing falls from sieve to sieve, and passing, retained and coarser fit together", () => {
    fc.assert(
      fc.property(
        anyFractions,
        fc.boolean(),
        fc.double({ min: 0.9, max: 1.1, noNaN: true }),
        (fractions, ofCharge, f) => {
          const recoveredG = gradedOf(fractions).recoveredG;
          const rows = gradedOf(fractions, ofCharge ? { basis: "charge", chargeG: recoveredG * f } : {}).rows;
          rows.forEach((row, i) => {
            expect(row.passingPct).toBeLessThanOrEqual(rows[i - 1]?.passingPct ?? 100);
            expectNear(row.passingPct + row.coarserPct, 100, 1e-9);
          });
          if (!ofCharge)
            expectNear(
              rows.reduce((sum, row) => sum + row.retainedPct, 0),
              100,
              1e-9,
            );
        },
      ),
    );
  });
});
