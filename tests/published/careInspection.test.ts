import { describe, expect, test } from "vitest";
import { MOST_ABOVE_Z } from "../../src/care/inspection/direction.ts";
import { aperturesToMeasure, readToUm } from "../../src/care/inspection/howMany.ts";
import { inspect } from "../../src/care/inspection/inspect.ts";
import { apertureLimits } from "../../src/care/inspection/limits.ts";
import type { Inspection } from "../../src/record/care.ts";
import type { Sieve } from "../../src/record/sieve.ts";
import { describeAperture } from "../../src/series/describe.ts";
import { numberOf } from "../grading/stack.ts";
import rules from "./examples/q-inspection.json" with { type: "json" };
import limits from "./examples/sieve-limits.json" with { type: "json" };

const LOOKS = { light: "good", wrinkles: "good", tears: "good", solder: "good", seat: "good" } as const;
const sieve = (apertureUm: number): Sieve => ({ schema: "sievewright.sieve/1", serial: "S-1", apertureUm });
const measured = (warpUm: readonly number[]): Inspection => ({
  did: "inspection",
  serial: "S-1",
  looks: LOOKS,
  measured: { warpUm: [...warpUm], weftUm: [...warpUm] },
});
const limitsOf = (um: number) => {
  const found = apertureLimits(um, "woven wire");
  if ("reason" in found) throw new Error(found.reason);
  return found;
};
const printed = (limit: "X" | "Y" | "Z") => limits.rows.filter((row) => row.limit === limit);

describe(`an inspection judges by the limits of ${limits.source} (${limits.status}) where these were read`, () => {
  test.each(printed("Y"))(
    "a mean $printedUm um beside $apertureUm um is fit, one beyond it is not",
    ({ apertureUm, printedUm }) => {
      expect(inspect(sieve(apertureUm), measured([apertureUm + printedUm])).result).toBe("fit");
      expect(inspect(sieve(apertureUm), measured([apertureUm - printedUm])).result).toBe("fit");
      expect(inspect(sieve(apertureUm), measured([apertureUm + printedUm + 1])).faults.join()).toMatch(/Y allows/);
      expect(inspect(sieve(apertureUm), measured([apertureUm - printedUm - 1])).faults.join()).toMatch(/Y allows/);
    },
  );

  test.each(printed("X"))(
    "an aperture $printedUm um above $apertureUm um is fit, one beyond it is not",
    ({ apertureUm, printedUm }) => {
      const around = Array.from({ length: 200 }, () => apertureUm);
      expect(inspect(sieve(apertureUm), measured([...around, apertureUm + printedUm])).result).toBe("fit");
      expect(inspect(sieve(apertureUm), measured([...around, apertureUm + printedUm + 1])).faults.join()).toMatch(
        /X allows/,
      );
    },
  );

  test.each(printed("Z"))(
    "the share above $printedUm um over $apertureUm um is told as above Z",
    ({ apertureUm, printedUm }) => {
      const found = inspect(
        sieve(apertureUm),
        measured([apertureUm, apertureUm + printedUm, apertureUm + printedUm + 1]),
      );
      expect(found.directions[0]?.shareAboveZ).toBeCloseTo(1 / 3, 12);
    },
  );

  test("and says so: seen where a table was read, computed by a recalled formula elsewhere", () => {
    const read = new Set(limits.rows.map(({ apertureUm }) => apertureUm));
    for (const { apertureUm } of limits.worked.rows) {
      const { figures, founded } = limitsOf(apertureUm);
      expect([apertureUm, figures]).toEqual([apertureUm, read.has(apertureUm) ? "tabulated" : "computed"]);
      expect(founded).toContain(
        read.has(apertureUm) ? `seen: ${limits.source}` : "computed: formulas of ISO 3310-1, recalled",
      );
      expect(founded).toContain("the edition in force decides");
    }
  });
});

describe(`where no table was read, it judges by ${limits.worked.source} (${limits.worked.status})`, () => {
  test.each(limits.worked.rows)("$apertureUm um: Y $meanUm, X $maxUm, Z $intermediateUm", (row) => {
    const used = limitsOf(row.apertureUm);
    if (used.figures === "tabulated") return expect(Math.abs(used.meanUm - row.meanUm)).toBeLessThanOrEqual(5);
    for (const key of ["meanUm", "maxUm", "intermediateUm"] as const)
      expect(Math.abs(used[key] - row[key]), key).toBeLessThanOrEqual(0.0501);
  });
});

describe(`${rules.examination.source} (${rules.examination.status})`, () => {
  const { measuredWholeUpTo, readToUmAtLeast, readToPartOfY } = rules.examination;

  test("cloth with few apertures is measured whole; for more, no number is made up", () => {
    for (const inCloth of [1, 7, measuredWholeUpTo]) expect(numberOf(aperturesToMeasure(inCloth))).toBe(inCloth);
    expect(aperturesToMeasure(measuredWholeUpTo + 1)).toMatchObject({ determinable: false });
  });

  test("apertures are read to 1 um or a quarter of Y, whichever is larger", () => {
    for (const { apertureUm } of limits.worked.rows) {
      const yUm = describeAperture(apertureUm).meanToleranceUm ?? Number.NaN;
      expect(numberOf(readToUm(apertureUm))).toBe(Math.max(readToUmAtLeast, readToPartOfY * yUm));
    }
  });
});

test(`${rules.intermediate.source} (${rules.intermediate.status}): 6 % at most lie above Z`, () =>
  expect(100 * MOST_ABOVE_Z).toBe(rules.intermediate.mostAboveZPct));

test(`${rules.scope.source} (${rules.scope.status}): outside it there are no limits, and for other cloth none are known`, () => {
  const { fromUm, toUm } = rules.scope;
  for (const um of [fromUm, toUm]) expect(apertureLimits(um, "woven wire")).toHaveProperty("meanUm");
  for (const um of [fromUm - 1, toUm + 1]) expect(apertureLimits(um, "woven wire")).toHaveProperty("reason");
  for (const cloth of ["perforated plate", "electroformed"] as const)
    expect(apertureLimits(4000, cloth)).toHaveProperty("reason");
});
