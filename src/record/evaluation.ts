import { z } from "zod";
import { DecisionSchema } from "./decision.ts";
import { HowSureSchema } from "./howSure.ts";
import { APERTURE_CHOICES, RESTS_ON } from "./meanAperture.ts";
import { BASES, FITS, INTERPOLATIONS } from "./product.ts";
import { PRODUCT_VERDICTS, TEST_VERDICTS } from "./test.ts";
import { VALUE_IDS } from "./valueIds.ts";

export const PERCENTILES = ["5", "10", "16", "25", "30", "50", "60", "75", "80", "84", "90", "95"] as const;
export const LIMIT_RESULTS = ["within", "below", "above", "borderline", "not determinable"] as const;
export const SEVERITIES = ["note", "warning", "invalidates"] as const;

const notDeterminable = z.strictObject({ determinable: z.literal(false), reason: z.string() });
const found = z.strictObject({
  determinable: z.literal(true),
  value: z.number(),
  unit: z.string(),
  /** What the number rests on besides the weighings. */
  assumptions: z.array(z.string()).optional(),
});
const determination = z.discriminatedUnion("determinable", [found, notDeterminable]);

const weighings = { emptyG: z.number().nullable(), fullG: z.number().nullable(), netG: z.number() };
const percentages = { retainedPct: z.number(), coarserPct: z.number(), passingPct: z.number() };
const fraction = z.union([
  z.strictObject({ apertureUm: z.number().positive(), ...weighings, ...percentages }),
  z.strictObject({ pan: z.literal(true), apertureUm: z.literal(0), ...weighings, ...percentages }),
]);

/** A fitted model; sizes in um, standard errors in the units of their parameters. */
const fitted = <P extends z.ZodRawShape>(parameters: P) =>
  z.discriminatedUnion("determinable", [
    z.strictObject({
      determinable: z.literal(true),
      ...parameters,
      standardErrors: z.strictObject(parameters),
      rule: z.enum(FITS),
      r2: z.number(),
      rmsPct: z.number(),
      pointsUsed: z.int().positive(),
      used: z.strictObject({ fromUm: z.number().positive(), toUm: z.number().positive() }),
    }),
    notDeterminable,
  ]);

const notice = z.strictObject({
  id: z.string(),
  severity: z.enum(SEVERITIES),
  text: z.string(),
  /** What was found, what is allowed, by which rule from where, and what to do; as far as there is any. */
  found: z.string().nullable().optional(),
  limit: z.string().nullable().optional(),
  rule: z.string().optional(),
  source: z.string().optional(),
  remedy: z.string().optional(),
});

/** Why the test is valid or not: each check with what it found, and the rules that were in force. */
const procedure = z.strictObject({
  ruleSet: z.strictObject({ id: z.string(), title: z.string() }).nullable(),
  checks: z.array(
    z.strictObject({
      check: z.string(),
      state: z.enum(["met", "not met", "not done", "not asked"]),
      required: z.boolean(),
      text: z.string(),
    }),
  ),
  rules: z.array(z.strictObject({ rule: z.string(), text: z.string(), standing: z.string(), source: z.string() })),
});

const judged = z.strictObject({
  /** `passingPct@500`, `retainedPct@500`, `coarserPct@500`, `percentileUm@50` or a value id. */
  on: z.string(),
  value: z.number().nullable(),
  min: z.number().nullable(),
  max: z.number().nullable(),
  result: z.enum(LIMIT_RESULTS),
  reason: z.string().optional(),
  /** What a guarded rule decided with: standard and expanded (k = 2) uncertainty, width of the guard band, chance of conformity. */
  guarded: z.strictObject({ u: z.number(), U: z.number(), guard: z.number(), conformity: z.number() }).optional(),
});

const drawnOver = z.strictObject({
  choice: z.enum(APERTURE_CHOICES).exclude(["nominal"]),
  of: z.array(
    z.strictObject({
      apertureUm: z.number().positive(),
      /** Null where it is not known; `lacks` says why. */
      meanUm: z.number().positive().nullable(),
      serial: z.string().nullable(),
      restsOn: RESTS_ON.nullable(),
      doubt: z.string().optional(),
      lacks: z.string().optional(),
      /** What passes at the nominal aperture, read from the curve; null beyond it. */
      passingAtNominalPct: z.number().nullable(),
    }),
  ),
});

/** The result of `evaluate --json`. Numbers are unrounded; absent is a reason, never a number. */
export const EvaluationSchema = z.strictObject({
  schema: z.literal("sievewright.evaluation/1"),
  basis: z.enum(BASES),
  interpolation: z.enum(INTERPOLATIONS),
  /** Over which mean apertures the curve is drawn, sieve by sieve, coarsest first; absent for a curve over nominal ones. */
  apertures: drawnOver.optional(),
  chargeG: z.number().nullable(),
  /** Dry mass after washing; null for a test that was not washed. */
  washedG: z.number().nullable().optional(),
  recoveredG: z.number(),
  lossG: z.number().nullable(),
  lossPct: z.number().nullable(),
  /** Coarsest sieve first, the pan last. */
  fractions: z.array(fraction),
  percentilesUm: z.record(z.enum(PERCENTILES), determination),
  values: z.record(z.enum(VALUE_IDS), determination),
  models: z.strictObject({
    rosinRammler: fitted({ sizeUm: z.number(), spread: z.number() }),
    gatesGaudinSchuhmann: fitted({ sizeUm: z.number(), exponent: z.number() }),
    logNormal: fitted({ medianUm: z.number(), geometricStandardDeviation: z.number() }),
  }),
  verdict: z.strictObject({
    test: z.enum(TEST_VERDICTS),
    product: z.enum(PRODUCT_VERDICTS),
    limits: z.array(judged),
  }),
  /** The revision that decided, and how values were compared with its limits; null without a product. */
  judgedAgainst: z
    .strictObject({
      code: z.string(),
      revision: z.number(),
      rule: DecisionSchema.shape.rule,
      compare: DecisionSchema.shape.compare.unwrap(),
    })
    .nullable()
    .optional(),
  notices: z.array(notice),
  procedure,
  /** How sure all this is; an older result has none. */
  uncertainty: HowSureSchema.optional(),
});

export type Evaluation = z.infer<typeof EvaluationSchema>;
