import { bySize, type ChargeRule, type LoadRule, type RuleSet, recalled, seen } from "./ruleSet.ts";

const CHECKLIST = "technician checklist for ASTM C136/C136M, form dated 09/2020";
const FIELD_PROCEDURE = "WAQTC field operating procedure for AASHTO T 27 / T 11, 2011";
const CROSS_TEST = "BRE European cross-test of particle size distribution, method page (EN 933-1)";

/** 7 kg/m2 below 4.75 mm, 2.5 kg/m2 and mm from there; the rim of 12.7 mm gives the checklist's 200 g and 469 g. */
const areaRule: LoadRule = {
  kind: "area",
  fineKgPerM2: 7,
  coarseFromUm: 4750,
  coarseKgPerM2PerMm: 2.5,
  rimMm: 12.7,
  ...seen("ASTM C136/C136M-19, clause 8"),
};

const c136Charge: ChargeRule = {
  kind: "by size",
  rows: bySize([
    [4.75, 300],
    [9.5, 1000],
    [12.5, 2000],
    [19, 5000],
    [25, 10_000],
    [37.5, 15_000],
    [50, 20_000],
    [63, 35_000],
    [75, 60_000],
    [90, 100_000],
    [100, 150_000],
    [125, 300_000],
  ]),
  between: "next row",
  ...recalled("ASTM C136/C136M, table of minimum test samples"),
};

export const astmC136: RuleSet = {
  id: "astm-c136-2020",
  title: "ASTM C136/C136M",
  edition: "as checked in 2020 (C136/C136M-14 and the load clause of -19)",
  load: areaRule,
  endPoint: { of: "charge", limitPct: 0.5, periodS: 60, sieves: "every", ...seen(CHECKLIST) },
  maxLossPct: { value: 0.3, ...seen(CHECKLIST) },
  charge: c136Charge,
  readability: { stepG: 0.1, pctOfCharge: 0.1, ...seen(`${CHECKLIST} (fine aggregate)`) },
};

export const astmC136Older: RuleSet = {
  ...astmC136,
  id: "astm-c136-2006",
  edition: "up to 2006",
  endPoint: { of: "residue", limitPct: 1, periodS: 60, sieves: "every", ...recalled("ASTM C136, editions up to 2006") },
};

export const aashtoT27: RuleSet = {
  id: "aashto-t27-2011",
  title: "AASHTO T 27 / T 11, agency practice",
  edition: "field procedure of 2011, minimum masses of January 2018",
  load: null,
  endPoint: { of: "charge", limitPct: 0.5, periodS: 60, sieves: "every", ...seen(FIELD_PROCEDURE) },
  maxLossPct: { value: 0.3, ...recalled("AASHTO T 27") },
  charge: {
    kind: "by size",
    rows: bySize([
      [4.75, 500],
      [6.3, 1000],
      [9.5, 1000],
      [12.5, 2000],
      [16, 2000],
      [19, 3000],
      [25, 6000],
      [31.5, 7500],
      [37.5, 9000],
      [50, 10_000],
      [63, 12_000],
      [75, 15_000],
      [90, 20_000],
    ]),
    between: "next row",
    ...seen("Washington State DOT Materials Manual M 46-01, T 27_T 11, January 2018, Table 1"),
  },
  readability: { stepG: null, pctOfCharge: 0.1, ...seen("AASHTO T 27-14, apparatus") },
};

export const en9331: RuleSet = {
  id: "en-933-1-2012",
  title: "EN 933-1",
  edition: "2012",
  load: { kind: "root-of-aperture", gPerMm2: 0.005, ...seen(CROSS_TEST) },
  endPoint: { of: "residue", limitPct: 1, below: true, periodS: 60, sieves: "every", ...recalled("EN 933-1") },
  maxLossPct: { value: 1, ...recalled("EN 933-1") },
  charge: {
    kind: "by size",
    rows: bySize([
      [4, 200],
      [8, 600],
      [16, 2600],
      [31.5, 10_000],
      [63, 40_000],
      [90, 80_000],
    ]),
    between: "square",
    ...recalled("EN 933-1, table of test portions (0.2 kg below 4 mm seen in the BRE cross-test)"),
  },
  readability: { stepG: null, pctOfCharge: 0.1, ...recalled("EN 933-1") },
};
