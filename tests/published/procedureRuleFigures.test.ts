import { describe, expect, test } from "vitest";
import type { RuleSet } from "../../src/procedure/rules/ruleSet.ts";
import { RULE_SETS, ruleSetOf } from "../../src/procedure/rules/ruleSets.ts";

/**
 * Every figure of every rule set, once more and in full, with its standing and source, so that none changes unnoticed.
 * `seen`: read in the publication named; `memory`: recalled, to be checked against the customer's copy.
 */
const CHECKLIST = "technician checklist for ASTM C136/C136M, form dated 09/2020";
const FIELD_2011 = "WAQTC field operating procedure for AASHTO T 27 / T 11, 2011";
const CROSS_TEST = "BRE European cross-test of particle size distribution, method page (EN 933-1)";

type Figures = Pick<RuleSet, "load" | "endPoint" | "maxLossPct" | "readability">;
const figuresOf = ({ load, endPoint, maxLossPct, readability }: RuleSet): Figures => ({
  load,
  endPoint,
  maxLossPct,
  readability,
});

describe("figures of the rule sets", () => {
  test("ASTM C136/C136M as checked in 2020", () =>
    expect(figuresOf(ruleSetOf("astm-c136-2020"))).toEqual({
      load: {
        kind: "area",
        fineKgPerM2: 7,
        coarseFromUm: 4750,
        coarseKgPerM2PerMm: 2.5,
        rimMm: 12.7,
        standing: "seen",
        source: "ASTM C136/C136M-19, clause 8",
      },
      endPoint: {
        of: "charge",
        limitPct: 0.5,
        periodS: 60,
        sieves: "every",
        standing: "seen",
        source: CHECKLIST,
      },
      maxLossPct: { value: 0.3, standing: "seen", source: CHECKLIST },
      readability: {
        stepG: 0.1,
        pctOfCharge: 0.1,
        standing: "seen",
        source: `${CHECKLIST} (fine aggregate)`,
      },
    }));

  test("ASTM C136 up to 2006 differs in its end point alone", () => {
    const { endPoint, ...older } = figuresOf(ruleSetOf("astm-c136-2006"));
    const { endPoint: _, ...newer } = figuresOf(ruleSetOf("astm-c136-2020"));
    expect(older).toEqual(newer);
    expect(endPoint).toEqual({
      of: "residue",
      limitPct: 1,
      periodS: 60,
      sieves: "every",
      standing: "memory",
      source: "ASTM C136, editions up to 2006",
    });
  });

  test("AASHTO T 27 / T 11 as practised by an agency", () =>
    expect(figuresOf(ruleSetOf("aashto-t27-2011"))).toEqual({
      load: null,
      endPoint: {
        of: "charge",
        limitPct: 0.5,
        periodS: 60,
        sieves: "every",
        standing: "seen",
        source: FIELD_2011,
      },
      maxLossPct: { value: 0.3, standing: "memory", source: "AASHTO T 27" },
      readability: {
        stepG: null,
        pctOfCharge: 0.1,
        standing: "seen",
        source: "AASHTO T 27-14, apparatus",
      },
    }));

  test("EN 933-1:2012", () =>
    expect(figuresOf(ruleSetOf("en-933-1-2012"))).toEqual({
      load: {
        kind: "root-of-aperture",
        gPerMm2: 0.005,
        standing: "seen",
        source: CROSS_TEST,
      },
      endPoint: {
        of: "residue",
        limitPct: 1,
        below: true,
        periodS: 60,
        sieves: "every",
        standing: "memory",
        source: "EN 933-1",
      },
      maxLossPct: { value: 1, standing: "memory", source: "EN 933-1" },
      readability: {
        stepG: null,
        pctOfCharge: 0.1,
        standing: "memory",
        source: "EN 933-1",
      },
    }));

  test("ISO 2591-1:1988", () =>
    expect(figuresOf(ruleSetOf("iso-2591-1-1988"))).toEqual({
      load: null,
      endPoint: {
        of: "charge",
        limitPct: 0.1,
        below: true,
        periodS: 60,
        sieves: "every",
        standing: "memory",
        source: "ISO 2591-1",
      },
      maxLossPct: null,
      readability: null,
    }));

  test("ANSI/ASAE S319.4", () =>
    expect(figuresOf(ruleSetOf("asae-s319-4"))).toEqual({
      load: null,
      endPoint: {
        of: "charge",
        limitPct: 0.2,
        periodS: 300,
        sieves: "finest loaded",
        standing: "memory",
        source: "ANSI/ASAE S319, earlier edition",
      },
      maxLossPct: null,
      readability: {
        stepG: 0.1,
        pctOfCharge: null,
        standing: "seen",
        source: "Journal of Dairy Science 1970, committee report on the fineness of feed",
      },
    }));

  test("USP chapter 786", () =>
    expect(figuresOf(ruleSetOf("usp-786"))).toEqual({
      load: null,
      endPoint: {
        of: "residue",
        limitPct: 5,
        periodS: 300,
        orG: 0.1,
        small: { belowPct: 5, limitPct: 20 },
        sieves: "every",
        standing: "memory",
        source: "USP chapter 786, 200 mm sieves",
      },
      maxLossPct: { value: 5, standing: "memory", source: "USP chapter 786" },
      readability: null,
    }));

  test("ASTM D1921", () =>
    expect(figuresOf(ruleSetOf("astm-d1921"))).toEqual({
      load: null,
      endPoint: null,
      maxLossPct: { value: 2, standing: "memory", source: "ASTM D1921" },
      readability: null,
    }));

  test("EN ISO 11125-2", () =>
    expect(figuresOf(ruleSetOf("iso-11125-2"))).toEqual({
      load: null,
      endPoint: null,
      maxLossPct: null,
      readability: {
        stepG: 0.1,
        pctOfCharge: null,
        standing: "seen",
        source: "EN ISO 11125-2, clauses 3 to 5",
      },
    }));

  test.each(["afs-sand", "own"] as const)("%s has none of these", (id) =>
    expect(figuresOf(ruleSetOf(id))).toEqual({
      load: null,
      endPoint: null,
      maxLossPct: null,
      readability: null,
    }),
  );
});

describe("titles and editions", () => {
  test("name the standard and what of it was at hand", () =>
    expect(RULE_SETS.map(({ id, title, edition }) => [id, title, edition])).toEqual([
      ["own", "rules of the plant", "as the product says"],
      ["astm-c136-2020", "ASTM C136/C136M", "as checked in 2020 (C136/C136M-14 and the load clause of -19)"],
      ["astm-c136-2006", "ASTM C136/C136M", "up to 2006"],
      [
        "aashto-t27-2011",
        "AASHTO T 27 / T 11, agency practice",
        "field procedure of 2011, minimum masses of January 2018",
      ],
      ["en-933-1-2012", "EN 933-1", "2012"],
      ["iso-2591-1-1988", "ISO 2591-1", "1988; only title pages reached"],
      ["asae-s319-4", "ANSI/ASAE S319.4", "S319.4, end point of an earlier edition"],
      ["usp-786", "USP chapter 786", "USP 31; end point and loss recalled"],
      ["astm-d1921", "ASTM D1921", "figures recalled, weakly"],
      ["iso-11125-2", "EN ISO 11125-2", "clauses 3 to 5 seen in extract"],
      ["afs-sand", "AFS grain fineness of foundry sand", "figures recalled"],
    ]));
});
