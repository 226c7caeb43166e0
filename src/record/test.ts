import { z } from "zod";
import { BalanceCheckSchema } from "./checks.ts";
import { apertureUm, code, initials, massG, moment, text } from "./fields.ts";
import { MeanApertureSchema } from "./meanAperture.ts";
import { ProductSchema, RETEST_WAYS } from "./product.ts";
import { ProgramRunSchema, ProgramSchema } from "./program.ts";
import { SieveKnownSchema } from "./sieve.ts";
import { BalanceSchema } from "./station.ts";
import { TestRefSchema } from "./testRef.ts";
import { KnownApertureSchema } from "./uncertainty.ts";

export const DISPOSITIONS = ["release", "adjust", "hold", "resample", "rework", "reject"] as const;
export const TEST_VERDICTS = ["valid", "invalid", "not checked"] as const;
export const PRODUCT_VERDICTS = ["pass", "fail", "borderline", "not judged"] as const;

/** Both weighings of one sieve, or of the pan (aperture 0). Null: not weighed yet. */
export const WeighingSchema = z.strictObject({
  apertureUm: z.union([apertureUm, z.literal(0)]),
  serial: code.optional(),
  emptyG: massG.nullable(),
  fullG: massG.nullable(),
  /** Full masses of the portions sieved before, where the charge is sieved in portions; what each left is summed. */
  earlierFullG: z.array(massG).max(20).optional(),
});

/** What an operator can enter in a test; a trail item names one of them. */
export const ENTERED = [
  "product",
  "lot",
  "line",
  "samplingPoint",
  "set",
  "serial",
  "moistG",
  "dryG",
  "chargeG",
  "washedG",
  "emptyG",
  "fullG",
  "shaking",
  "ran",
  "portion",
  "checkMinute",
  "remark",
  "disposition",
] as const;

/** One accepted entry, in the order of acceptance: what stood there before, what stands there now. Never removed. */
export const TrailItemSchema = z.strictObject({
  at: moment,
  field: z.enum(ENTERED),
  /** The sieve (0: the pan) of a weighing. */
  apertureUm: z.number().min(0).optional(),
  from: z.union([z.number(), text(400)]).nullable(),
  to: z.union([z.number(), text(400)]).nullable(),
  /** This item takes an earlier one back. */
  undo: z.literal(true).optional(),
  /** An empty mass that was not weighed but taken over: from which recorded test, and when it was weighed there. */
  takenOver: z.strictObject({ number: z.int().positive(), at: moment }).optional(),
  /** The warning that the operator saw and accepted with a second Enter. */
  warned: text(400).optional(),
});

export const ShakingSchema = z.strictObject({
  plannedS: z.number().min(0),
  startedAt: moment.nullable(),
  endedAt: moment.nullable(),
  /** Why the countdown was not run to its end. */
  skipped: text(200).nullable(),
});

/** One more minute on the shaker: what each sieve weighed full before it. What it weighs after is its full mass. */
export const CheckMinuteSchema = z.strictObject({
  at: moment,
  before: z.array(z.strictObject({ apertureUm: z.number().min(0), fullG: massG })).max(65),
});

/** What was known of the balance when the test was set out: its last check, and when shift and day began. */
export const BalanceKnownSchema = z.strictObject({
  last: BalanceCheckSchema.nullable(),
  shiftBegan: moment,
  dayBegan: moment,
});

/**
 * How a test of a lot that had been tested before came about: from the same sample divided again (second portion), or from a
 * sample taken anew; and which test it repeats.
 */
export const RetestOfSchema = z.strictObject({ way: z.enum(RETEST_WAYS), of: TestRefSchema });

/** Everything entered in one test, with copies of all that it is judged against, so later edits change no verdict. */
export const testFields = {
  testId: code,
  station: code,
  startedAt: moment,
  product: ProductSchema,
  lot: text(40),
  line: text(40),
  samplingPoint: text(40),
  retest: RetestOfSchema.optional(),
  chargeG: massG.nullable(),
  /** Dry mass after washing, for a test that is washed. */
  washedG: massG.nullable().optional(),
  /** A portion weighed moist and again dry, for the moisture. */
  moistG: massG.nullable().optional(),
  dryG: massG.nullable().optional(),
  balance: BalanceSchema,
  balanceKnown: BalanceKnownSchema.optional(),
  /** Mean apertures of the sieves used, as far as they were certified or measured when the test was set out. */
  knownApertures: z.array(KnownApertureSchema).max(64).optional(),
  /** The mean apertures that the product's curve is drawn over, as known then; absent for a curve over nominal ones. */
  meanApertures: z.array(MeanApertureSchema).max(64).optional(),
  /** The set of sieves whose serials stand in the weighings, where one was chosen. */
  set: code.optional(),
  /** The condition of the sieves of the set when they were put together for this test. */
  sieves: z.array(SieveKnownSchema).max(64).optional(),
  program: ProgramSchema.nullable(),
  /** What each sieve (0: the pan) weighed empty in the latest test of this product, as known while this one was run. */
  usualEmpty: z
    .array(z.strictObject({ apertureUm: z.number().min(0), emptyG: massG }))
    .max(65)
    .optional(),
  weighings: z.array(WeighingSchema).min(2).max(65),
  shaking: ShakingSchema,
  /** How the portions before this one were shaken. */
  earlierShaking: z.array(ShakingSchema).max(20).optional(),
  /** What the shaker did otherwise than its program says. */
  ran: ProgramRunSchema.optional(),
  checkMinute: CheckMinuteSchema.nullable().optional(),
  remark: text(400),
  disposition: z.enum(DISPOSITIONS).nullable(),
  trail: z.array(TrailItemSchema).max(5000),
};

/** The verdicts as the operator saw them when signing, with the version of the program that computed them. */
export const SignedVerdictSchema = z.strictObject({
  program: text(40),
  test: z.enum(TEST_VERDICTS),
  product: z.enum(PRODUCT_VERDICTS),
  lossPct: z.number().nullable(),
  /** The model of uncertainty by which guarded limits were decided; without it they decided nothing. */
  budget: z.int().positive().optional(),
});

export const TestRecordSchema = z.strictObject({
  ...testFields,
  finishedAt: moment,
  by: initials,
  signed: SignedVerdictSchema,
});

export type Weighing = z.infer<typeof WeighingSchema>;
export type TrailItem = z.infer<typeof TrailItemSchema>;
export type Entered = (typeof ENTERED)[number];
export type Shaking = z.infer<typeof ShakingSchema>;
export type RetestOf = z.infer<typeof RetestOfSchema>;
export type CheckMinute = z.infer<typeof CheckMinuteSchema>;
export type TestRecord = z.infer<typeof TestRecordSchema>;
export type Disposition = (typeof DISPOSITIONS)[number];
export type TestVerdict = (typeof TEST_VERDICTS)[number];
export type ProductVerdict = (typeof PRODUCT_VERDICTS)[number];

/** The accepted entries that still stand: each undo takes the latest standing one away. */
export function standing(trail: readonly TrailItem[]): TrailItem[] {
  const stack: TrailItem[] = [];
  for (const item of trail) {
    if (item.undo) stack.pop();
    else stack.push(item);
  }
  return stack;
}
