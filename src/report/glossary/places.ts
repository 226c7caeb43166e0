import type { StandardId } from "../standards/standards.ts";
import type { TermId } from "./terms.ts";

/** What the help page of a place tells besides what it is for and its keys. */
export interface PlaceTold {
  /** What the place is called, in the operator's words. */
  readonly title: string;
  readonly terms: readonly TermId[];
  readonly standards: readonly StandardId[];
}

/** Every place of the screens by its name, in the order of the work. */
export const PLACES = {
  bench: {
    title: "the bench",
    terms: [
      "test",
      "practice",
      "lot",
      "hold",
      "samplingPlan",
      "testVerdict",
      "productVerdict",
      "disposition",
      "percentile",
      "loss",
    ],
    standards: ["curve"],
  },
  run: {
    title: "a test in work",
    terms: [
      "sieve",
      "aperture",
      "pan",
      "stack",
      "set",
      "samplingPoint",
      "division",
      "charge",
      "portion",
      "moisture",
      "washLoss",
      "empty",
      "full",
      "net",
      "fraction",
      "passing",
      "recovered",
      "loss",
      "load",
      "doubt",
      "program",
      "checkMinute",
      "endPoint",
      "envelope",
      "testVerdict",
      "productVerdict",
      "practice",
    ],
    standards: ["procedure", "curve", "sureness"],
  },
  sign: {
    title: "signing a test",
    terms: ["disposition", "testVerdict", "productVerdict", "borderline", "hold", "practice"],
    standards: ["record"],
  },
  values: {
    title: "the values of a test",
    terms: ["value", "percentile", "limit", "interpolation", "rounding", "basis"],
    standards: ["values", "curve", "models"],
  },
  record: {
    title: "a recorded test",
    terms: [
      "log",
      "correction",
      "voided",
      "waiver",
      "retained",
      "coarser",
      "passing",
      "basis",
      "uncertainty",
      "testVerdict",
      "productVerdict",
      "chain",
    ],
    standards: ["procedure", "curve", "sureness", "models", "record"],
  },
  correct: {
    title: "correcting a recorded test",
    terms: ["correction", "log", "doubt", "empty", "full"],
    standards: ["record"],
  },
  reason: {
    title: "a reason and a signature",
    terms: ["voided", "waiver", "testVerdict", "log"],
    standards: ["record"],
  },
  log: {
    title: "the log",
    terms: ["log", "lot", "line", "productVerdict", "voided", "correction", "stream"],
    standards: ["curve", "record"],
  },
  lot: {
    title: "a lot",
    terms: ["lot", "retest", "hold", "disposition", "increment", "productVerdict"],
    standards: ["curve"],
  },
  replicates: {
    title: "tests of a lot together",
    terms: ["replicate", "repeatability", "outlier", "uncertainty"],
    standards: ["replicates", "sureness"],
  },
  plan: {
    title: "how much charge it takes",
    terms: ["charge", "portion", "limit", "guardBand", "risk", "uncertainty", "load"],
    standards: ["sureness", "procedure"],
  },
  trend: {
    title: "trends",
    terms: ["controlLimits", "signal", "drift", "capability", "memoryChart", "limit"],
    standards: ["charts", "curve"],
  },
  handover: {
    title: "the handover",
    terms: ["shift", "handover", "hold", "samplingPlan", "chain"],
    standards: ["record"],
  },
  event: { title: "a note, a line, a hold", terms: ["line", "hold", "handover", "log"], standards: ["record"] },
  products: { title: "the products", terms: ["product", "revision", "draft", "library"], standards: ["procedure"] },
  product: {
    title: "a product",
    terms: ["product", "revision", "envelope", "limit", "program", "rounding"],
    standards: ["procedure", "values"],
  },
  envelope: {
    title: "editing an envelope",
    terms: ["envelope", "limit", "draft", "passing", "value"],
    standards: ["values", "curve"],
  },
  diff: { title: "what a revision changed", terms: ["revision", "draft", "envelope"], standards: ["record"] },
  publish: { title: "publishing a revision", terms: ["revision", "draft", "role", "chain"], standards: ["record"] },
  import: { title: "loading from the shared folder", terms: ["library", "revision", "chain"], standards: ["record"] },
  sieves: {
    title: "sieves, balances, weights",
    terms: ["sieve", "set", "cleanLevel", "inspection", "quarantine", "blinding", "checkWeight"],
    standards: ["care", "series", "balance"],
  },
  sieve: {
    title: "one sieve",
    terms: [
      "sieve",
      "aperture",
      "designation",
      "cleanLevel",
      "blinding",
      "effectiveAperture",
      "quarantine",
      "inspection",
    ],
    standards: ["care", "series"],
  },
  careForm: {
    title: "noting care, registering",
    terms: ["set", "cleanLevel", "quarantine", "inspection", "checkWeight", "empty"],
    standards: ["care", "balance"],
  },
  inspect: {
    title: "inspecting a sieve",
    terms: ["inspection", "aperture", "warpWeft", "quarantine"],
    standards: ["series", "care"],
  },
  reference: {
    title: "checking by a reference material",
    terms: ["referenceMaterial", "enNumber", "effectiveAperture", "uncertainty"],
    standards: ["reference", "sureness"],
  },
  balance: { title: "checking the balance", terms: ["balanceCheck", "checkWeight"], standards: ["balance"] },
  shaker: {
    title: "motion of the shaker",
    terms: ["program", "stroke", "acceleration", "throwNumber"],
    standards: ["motion"],
  },
  deck: { title: "how a screen deck separates", terms: ["stream", "recovery", "cutSize"], standards: ["deck"] },
  signOn: { title: "signing on", terms: ["signOn", "role", "shift", "station"], standards: ["record"] },
  operators: { title: "the people", terms: ["role", "signOn", "station"], standards: ["record"] },
  operatorForm: { title: "a question about people", terms: ["role", "signOn"], standards: ["record"] },
} as const satisfies Record<string, PlaceTold>;

export type PlaceToldId = keyof typeof PLACES;

/** The titles of the places in which a term is used. */
export const placesOf = (term: TermId): readonly string[] =>
  (Object.values(PLACES) as readonly PlaceTold[]).filter(({ terms }) => terms.includes(term)).map(({ title }) => title);
