import type { Term } from "./term.ts";

/** Words of the figures, the verdicts and how sure they are. */
export const JUDGING_TERMS = {
  test: {
    name: "test",
    meaning: "One charge sieved and weighed, from setting out to the signature.",
    also: ["weighing"],
  },
  practice: {
    name: "practice",
    meaning: "A test to learn by: marked as such on every screen, never recorded, kept in no file.",
  },
  doubt: {
    name: "doubt",
    meaning:
      "A mass that can't be right is questioned once with the reason; a second Enter accepts it, and the record says so.",
  },
  testVerdict: {
    name: "test valid",
    meaning:
      "Whether the test itself proves anything: loss, load, end point, balance, sieves. Invalid, it passes no product; not checked, a pass is unproven.",
    also: ["valid", "invalid", "not checked", "unproven"],
  },
  productVerdict: {
    name: "product verdict",
    meaning:
      "PASS, FAIL or BORDERLINE against the envelope; NOT JUDGED without one. It is told apart from whether the test is valid.",
    also: ["pass", "fail", "verdict"],
  },
  borderline: {
    name: "borderline",
    meaning: "Within the limit, but closer to it than the test can tell; no fail, and no release by itself.",
  },
  envelope: {
    name: "envelope",
    meaning: "What a product's revision allows: lower and upper passing % at each aperture, and limits on values.",
  },
  limit: {
    name: "limit",
    meaning: "The least or the most that is allowed of one figure; a figure on the limit is within.",
  },
  value: {
    name: "characteristic value",
    meaning: "One number drawn from a distribution, such as d50 or the fineness modulus; w on a result explains each.",
    also: ["value"],
  },
  percentile: {
    name: "percentile",
    meaning: "The size that so many % by mass pass: d50 is passed by half, d10 is finer than d90.",
  },
  interpolation: {
    name: "interpolation",
    meaning: "How the curve is read between two sieves; log-linear unless the product says otherwise.",
  },
  rounding: {
    name: "rounding",
    meaning: "Only what is shown is rounded; limits compare what was found, unless the product rounds first.",
  },
  uncertainty: {
    name: "uncertainty",
    meaning:
      "± beside a figure: the true value lies within it in about 95 of 100 cases, as far as all that matters is known.",
    also: ["±", "expanded uncertainty"],
  },
  guardBand: {
    name: "guard band",
    meaning: "How far inside a limit a result must lie so that a wrong release stays rare enough.",
  },
  risk: {
    name: "risk",
    meaning:
      "The customer's: that what was called within is not. The producer's: that what was called outside is within.",
    also: ["customer's risk", "producer's risk"],
  },
  replicate: {
    name: "replicate",
    meaning: "One of several tests of the same sample or lot, looked at together.",
    also: ["repeat"],
  },
  repeatability: {
    name: "repeatability",
    meaning: "Two tests of one sample by one hand differ by more than r = 2.8 s_r once in twenty pairs.",
    also: ["s_r"],
  },
  outlier: {
    name: "outlier",
    meaning: "A test that lies further from the others than chance allows; look for the cause before leaving it out.",
  },
  cutSize: { name: "cut size", meaning: "The size of which a screen deck sends as much over as through." },
  recovery: {
    name: "recovery",
    meaning: "Of what should go over (oversize) or through (undersize) a deck, the part that does.",
    also: ["efficiency", "effectiveness"],
  },
  stream: { name: "stream", meaning: "Feed, oversize or undersize of a screen deck, each tested with the same stack." },
} as const satisfies Record<string, Term>;
