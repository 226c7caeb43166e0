import type { Standard } from "./told.ts";

export const CURVE_STANDARDS: readonly Standard[] = [
  {
    figure: "d10, d50, d90",
    source: "B. M. Das, Principles of Geotechnical Engineering; ASTM D6913 (memory)",
    at: "grading/percentile.ts",
  },
  { figure: "the curve between sieves", source: "ASTM D6913 (memory) for log-linear", at: "grading/passingAt.ts" },
];

export const CARE_STANDARDS: readonly Standard[] = [
  {
    figure: "how many apertures to measure",
    source: "ISO 3310-1:2016, examination clauses (seen in an extract)",
    at: "care/inspection/howMany.ts",
  },
  {
    figure: "limits of the mean and the largest aperture",
    source: "ISO 3310-1, European Pharmacopoeia 8.0 (2.1.4)",
    at: "care/inspection/inspect.ts",
  },
  {
    figure: "when a change of an empty mass is told",
    source: "own rules, no source; false alarms and delays measured in docs/care-simulations.md",
    at: "care/tare/tareWatch.ts",
  },
  {
    figure: "effective aperture from routine tests",
    source: "own, no source; detection, false alarms and bias by simulation in docs/care-simulations.md",
    at: "care/effective/effectiveFromTests.ts",
  },
  {
    figure: "when an inspection is due",
    source: "intervals are the plant's own; common practice, no source",
    at: "care/use/due.ts",
  },
];

export const REFERENCE_STANDARDS: readonly Standard[] = [
  { figure: "En number", source: "ISO 13528, ISO/IEC 17043 (memory)", at: "care/reference/referenceCheck.ts" },
  { figure: "z score", source: "ISO 13528 (memory)", at: "care/reference/referenceCheck.ts" },
  {
    figure: "spread between laboratories",
    source: "European cross-test of sieving (BRE), S_R < 0.05 sqrt(X(100 - X)) (seen)",
    at: "care/reference/referenceCheck.ts",
  },
];

export const BALANCE_STANDARDS: readonly Standard[] = [
  {
    figure: "proposed tolerance of a check",
    source: "OIML R 76 (steps seen; the factor 2 in service recalled)",
    at: "procedure/balance/limits.ts",
  },
  {
    figure: "limits of check weights",
    source: "OIML R 111 (rows recalled; 2 kg and 5 kg agree with rows that were seen)",
    at: "procedure/balance/limits.ts",
  },
];

export const DECK_STANDARDS: readonly Standard[] = [
  {
    figure: "recoveries and effectiveness",
    source: "McCabe, Smith and Harriott, Unit Operations of Chemical Engineering, ch. 30 (memory)",
    at: "grading/deck/recoveries.ts",
  },
  {
    figure: "partition curve, cut size",
    source: "Tromp (1937); Wills, Mineral Processing Technology (both memory)",
    at: "grading/deck/partition.ts",
  },
];

export const MOTION_STANDARDS: readonly Standard[] = [
  {
    figure: "peak acceleration",
    source: "kinematics of harmonic motion; g = 9.80665 m/s2 by definition",
    at: "procedure/motion/acceleration.ts",
  },
  {
    figure: "throw number",
    source: "derived here; the throw number A w^2 / g as in Devillard, J. Phys. I France 4 (1994) 1003",
    at: "procedure/motion/flight.ts",
  },
];

export const RECORD_STANDARDS: readonly Standard[] = [
  {
    figure: "seal of an entry",
    source: "the SHA-256, in lower-case hexadecimal, of its canonical JSON (RFC 8785)",
    at: "record/seal.ts",
  },
];
