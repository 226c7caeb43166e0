import { type RuleSet, recalled, seen } from "./ruleSet.ts";

const none = { load: null, endPoint: null, maxLossPct: null, charge: null, readability: null } as const;

export const iso2591: RuleSet = {
  ...none,
  id: "iso-2591-1-1988",
  title: "ISO 2591-1",
  edition: "1988; only title pages reached",
  endPoint: { of: "charge", limitPct: 0.1, below: true, periodS: 60, sieves: "every", ...recalled("ISO 2591-1") },
};

export const asaeS319: RuleSet = {
  ...none,
  id: "asae-s319-4",
  title: "ANSI/ASAE S319.4",
  edition: "S319.4, end point of an earlier edition",
  endPoint: {
    of: "charge",
    limitPct: 0.2,
    periodS: 300,
    sieves: "finest loaded",
    ...recalled("ANSI/ASAE S319, earlier edition"),
  },
  charge: { kind: "fixed", minG: 100, maxG: null, ...recalled("ANSI/ASAE S319.4") },
  readability: {
    stepG: 0.1,
    pctOfCharge: null,
    ...seen("Journal of Dairy Science 1970, committee report on the fineness of feed"),
  },
};

export const usp786: RuleSet = {
  ...none,
  id: "usp-786",
  title: "USP chapter 786",
  edition: "USP 31; end point and loss recalled",
  endPoint: {
    of: "residue",
    limitPct: 5,
    periodS: 300,
    orG: 0.1,
    small: { belowPct: 5, limitPct: 20 },
    sieves: "every",
    ...recalled("USP chapter 786, 200 mm sieves"),
  },
  maxLossPct: { value: 5, ...recalled("USP chapter 786") },
  charge: {
    kind: "fixed",
    minG: 25,
    maxG: 100,
    ...recalled("USP chapter 786 (at least 25 g seen in USP 31, up to 100 g recalled)"),
  },
};

export const astmD1921: RuleSet = {
  ...none,
  id: "astm-d1921",
  title: "ASTM D1921",
  edition: "figures recalled, weakly",
  maxLossPct: { value: 2, ...recalled("ASTM D1921") },
  charge: { kind: "fixed", minG: 50, maxG: null, ...recalled("ASTM D1921") },
};

export const iso11125: RuleSet = {
  ...none,
  id: "iso-11125-2",
  title: "EN ISO 11125-2",
  edition: "clauses 3 to 5 seen in extract",
  charge: { kind: "fixed", minG: 99.5, maxG: 100.5, ...seen("EN ISO 11125-2, clauses 3 to 5") },
  readability: { stepG: 0.1, pctOfCharge: null, ...seen("EN ISO 11125-2, clauses 3 to 5") },
};

export const afsSand: RuleSet = {
  ...none,
  id: "afs-sand",
  title: "AFS grain fineness of foundry sand",
  edition: "figures recalled",
  charge: { kind: "fixed", minG: 50, maxG: null, ...recalled("AFS grain fineness") },
};

export const ownRules: RuleSet = { ...none, id: "own", title: "rules of the plant", edition: "as the product says" };
