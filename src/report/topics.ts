import { USUAL_MARKS } from "../entry/reading.ts";
import { MODEL_IDS } from "../grading/models/model.ts";
import { MODELS } from "../grading/models/table.ts";
import { RECOVERY_WORDS } from "./deckFigures.ts";
import { MOTION_BASIS, ONE_PERIOD } from "./motionPage.ts";
import { permissionTable } from "./permissionTable.ts";
import { COMPARE, LIMITS_EXPLAINED } from "./sievesPage.ts";

/** Something that bears on many values at once, told in a few paragraphs. */
export interface Topic {
  readonly name: string;
  /** For the list of topics: a few words. */
  readonly title: string;
  readonly paragraphs: readonly string[];
  /** Rows that stand below them as they are. */
  readonly table?: readonly string[];
}

const modelWords = MODEL_IDS.map((id) => MODELS[id]).map(
  ({ label, formula, source }) => `${label}: ${formula}. Source: ${source}.`,
);

export const TOPICS: readonly Topic[] = [
  {
    name: "basis",
    title: "what the percentages are of",
    paragraphs: [
      "Percentages are by mass, of the total that was recovered from the sieves and the pan, unless the product (or " +
        "--basis) says of the charge as weighed. Of the charge, what was lost counts as passing.",
      "In a washed test the charge is the dry mass before washing, and what was washed out joins the pan.",
      "The loss is the charge minus everything recovered, in % of the charge; of a washed test, on the dry mass after " +
        "washing.",
    ],
  },
  {
    name: "percentiles",
    title: "what d10, d50, d90 are",
    paragraphs: [
      "The number is % passing by mass: d10 is the size that 10 % passes, d90 the size that 90 % passes. It is the " +
        "smallest size whose passing % reaches that number.",
      "Phi percentiles count from the coarse side, so phi16 is d84.",
      "A percentile beyond the sieves is not made up: it reads like `below 63 um (pan holds 14 %)`.",
    ],
  },
  {
    name: "interpolation",
    title: "how the curve is read between sieves",
    paragraphs: [
      "Log-linear unless the product (or --interpolate) says otherwise: a straight line over the logarithm of the " +
        "aperture. Linear: a straight line over the aperture. Log-probability: straight on log-probability paper. " +
        "Monotone: a smooth curve that never falls.",
      "The way is named on page, screen and in JSON. Nothing is read beyond the coarsest and the finest sieve.",
    ],
  },
  {
    name: "apertures",
    title: "nominal, certified or effective apertures under the curve",
    paragraphs: [
      "A curve is drawn over the nominal apertures of the sieves, unless the product chooses their certified mean apertures " +
        "(by the certificate in the register) or effective ones (by the latest run with a reference material).",
      "Then percentiles, models and class sizes are those of the real apertures. Limits on apertures, and the sieves of a " +
        "series (fineness modulus, grain fineness number), are read from that curve at the nominal aperture; retained % is " +
        "the difference of two such readings. A nominal aperture beyond the curve is not determinable: set out the next " +
        "coarser or finer sieve as well.",
      "What is chosen and not known is not replaced: no size is determined, and the result says which sieve lacks what. So " +
        "tell the set or scan each sieve when the test is set out. The test keeps each mean aperture with the serial and the " +
        "certificate or the check that it rests on; later entries in the register change no test.",
      "A repair ends what was known before it. A certificate that ran out counts all the same, with a warning.",
    ],
  },
  {
    name: "open-ends",
    title: "the classes above the top sieve and in the pan",
    paragraphs: [
      "What lies on the coarsest sieve is taken to be finer than the next coarser size of the series R20/3, unless the " +
        "product gives a top size. What lies in the pan is taken to be coarser than half the finest aperture, unless the " +
        "product gives it a size or leaves it out.",
      "Every value that used such an assumption says so.",
    ],
  },
  {
    name: "rounding",
    title: "how figures are shown and compared",
    paragraphs: [
      "Everything is worked out at full precision and rounded only to be shown: half away from zero, on the decimal " +
        "text, so 2.675 shows as 2.68. Coarser and passing as shown may miss 100 by a digit, and that is left so.",
      "Limits are inclusive and compared unrounded, unless the product rounds to a step first, half to even.",
    ],
  },
  {
    name: "verdicts",
    title: "the test and the product, never mixed",
    paragraphs: [
      "The test is valid or not: mass lost, sieve overloaded, end point, balance. The product passes, fails or is " +
        "borderline. An invalid test proves nothing about the product and never passes it.",
      "A pass here is no certificate of any law or licence.",
    ],
  },
  {
    name: "sureness",
    title: "± beside a figure, guard bands, borderline",
    paragraphs: [
      "± is the expanded uncertainty U = 2 u (k = 2): the true value lies within it in about 95 of 100 cases. It covers the " +
        "balance, what was lost, the apertures of the sieves, the count of grains, sampling and the end point, as far as " +
        "something is known of each; what is not included is named with the reason.",
      "A guarded limit is decided only where the result lies inside (or outside) by more than its guard band, 1.645 u unless " +
        "the product says otherwise. BORDERLINE is not a fail: the result meets the limit, but so narrowly that it can't be " +
        "told from one that does not. A larger charge, certified sieves or a better sample may tell; the result says which.",
      "Conformity is the chance that the true value meets the limit. The customer's risk is the chance that what was called " +
        "within should not have been, the producer's that what was called outside should not have been.",
    ],
  },
  {
    name: "models",
    title: "the distributions that a grading is fitted with",
    paragraphs: [...modelWords, "A size read from a model is labelled with it and never used for a verdict."],
  },
  { name: "screen-deck", title: "the three that plants call efficiency", paragraphs: RECOVERY_WORDS },
  {
    name: "motion",
    title: "stroke, acceleration and throw of a shaker",
    paragraphs: [
      "Stroke is peak to peak, twice the amplitude. Acceleration is the peak, in g (9.80665 m/s2). The throw number is " +
        "that acceleration over gravity.",
      ONE_PERIOD,
      MOTION_BASIS,
    ],
  },
  {
    name: "scanning",
    title: "what scanners and balances that type may send",
    paragraphs: [
      "Whatever comes in one go (keys less than 30 ms apart, or a paste) is one entry, never an action; it may end with CR, LF, " +
        "CR LF, a tab or nothing. The same within 0.3 s is left out.",
      "A mass is a number by point or comma with a sign apart or not, in g, kg or mg (g without a unit). Around it may stand " +
        `marks of rest (${USUAL_MARKS.atRest.join(", ")}), words of no weight (${USUAL_MARKS.passedOver.join(", ")}), day and clock. ` +
        `A mark of motion (${USUAL_MARKS.moving.join(" ")}) or of a tare (T, TARE) is refused. A station may name its own marks in ` +
        "station.json, scanner.balance: atRest, moving, passedOver.",
      "A label says what it is by its prefix, from station.json, scanner.prefixes: lot, product, line, samplingPoint, set, sieve, " +
        "operator. There are none unless the station names them.",
    ],
  },
  {
    name: "roles",
    title: "what operators, quality and administrators may do",
    paragraphs: [
      "Where a station asks people to sign on, each entry bears the name of whoever did, and the store refuses what their " +
        "role does not allow, on the screens and from commands alike. Nobody edits or removes a record.",
    ],
    table: permissionTable(),
  },
  { name: "aperture-limits", title: "limits of a test sieve's apertures", paragraphs: [LIMITS_EXPLAINED, COMPARE] },
];
