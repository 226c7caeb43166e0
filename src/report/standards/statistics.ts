import type { Standard } from "./told.ts";

export const CHART_STANDARDS: readonly Standard[] = [
  {
    figure: "centre line and control limits",
    source: "NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.1 and 6.3.2.2",
    at: "control/limits/chartLimits.ts",
  },
  {
    figure: "constants of the charts",
    source: "D. C. Montgomery, Introduction to Statistical Quality Control, appendix VI (memory)",
    at: "control/constants/chartConstants.ts",
  },
  {
    figure: "rules for signals",
    source: "Western Electric, Statistical Quality Control Handbook (1956); L. S. Nelson, J. Qual. Technol. 16 (1984)",
    at: "control/rules/rules.ts",
  },
  {
    figure: "EWMA",
    source: "NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.4; S. W. Roberts, Technometrics 1 (1959) 239-250",
    at: "control/memory/ewma.ts",
  },
  {
    figure: "CUSUM",
    source: "E. S. Page, Biometrika 41 (1954) 100-115; NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.3",
    at: "control/memory/cusum.ts",
  },
  {
    figure: "slope of a drift",
    source: "P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379-1389 (memory)",
    at: "control/drift/theilSen.ts",
  },
  {
    figure: "whether a drift is more than chance",
    source: "H. B. Mann, Econometrica 13 (1945) 245-259; M. G. Kendall, Rank Correlation Methods; both from memory",
    at: "control/drift/mannKendall.ts",
  },
  {
    figure: "Cp, Cpk, Pp, Ppk",
    source:
      "NIST/SEMATECH e-Handbook of Statistical Methods 6.1.6; bounds after A. F. Bissell, Appl. Statist. 39 (1990)",
    at: "control/capability/indices.ts",
  },
];

export const SURENESS_STANDARDS: readonly Standard[] = [
  { figure: "combined uncertainty", source: "JCGM 100:2008 clause 5 (memory)", at: "uncertainty/budget.ts" },
  {
    figure: "the part of the balance",
    source: "EURACHEM/CITAC guide QUAM, example A2 (memory)",
    at: "uncertainty/components/balance.ts",
  },
  {
    figure: "the part of the count of grains",
    source: "Gy's fundamental error by size classes: P. Gy; F. Pitard (memory)",
    at: "uncertainty/components/grains.ts",
  },
  {
    figure: "the part of the apertures",
    source: "ISO 3310-1 for Y (formula recalled: check your copy); JCGM 100 4.3.7 for the rectangle (memory)",
    quotes: "ISO 3310-1 for Y (formula recalled, see toleranceByFormula); JCGM 100 4.3.7 for the rectangle (memory)",
    at: "uncertainty/components/apertures.ts",
  },
  {
    figure: "intervals by draws",
    source: "JCGM 101:2008 clauses 7.2 to 7.9 (memory)",
    at: "uncertainty/monteCarlo/monteCarlo.ts",
  },
  {
    figure: "guard bands and decisions",
    source: "JCGM 106:2012 clauses 7 and 8 (memory)",
    at: "uncertainty/decision/decide.ts",
  },
  {
    figure: "customer's and producer's risk",
    source: "JCGM 106:2012 clauses 9.3 and 9.4 (memory)",
    at: "uncertainty/decision/globalRisks.ts",
  },
];

export const REPLICATE_STANDARDS: readonly Standard[] = [
  {
    figure: "repeatability",
    source: "ISO 5725-2 and ISO 5725-6 (memory)",
    at: "uncertainty/replicates/replicates.ts",
  },
  {
    figure: "outliers",
    source: "F. E. Grubbs, Ann. Math. Statist. 21 (1950) 27-58; the values of ISO 5725-2, table 5 (memory)",
    at: "uncertainty/replicates/grubbs.ts",
  },
  {
    figure: "scatter of several lots or stations",
    source: "W. G. Cochran, Ann. Eugenics 11 (1941) 47-52; the values of ISO 5725-2, table 4 (memory)",
    at: "uncertainty/replicates/cochran.ts",
  },
];
