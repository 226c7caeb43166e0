import { z } from "zod";
import { apertureUm, code, initials, massG, moment, text } from "./fields.ts";
import { ProductSchema } from "./product.ts";
import { ProgramSchema } from "./program.ts";
import { BalanceSchema } from "./station.ts";

export const DISPOSITIONS = ["release", "adjust", "hold", "resample", "rework", "reject"] as const;
export const TEST_VERDICTS = ["valid", "invalid", "not checked"] as const;
export const PRODUCT_VERDICTS = ["pass", "fail", "borderline", "not judged"] as const;

/** Both weighings of one sieve, or of the pan (aperture 0). Null: not weighed yet. */
export const WeighingSchema = z.strictObject({
  apertureUm: z.union([apertureUm, z.literal(0)]),
  serial: code.optional(),
  emptyG: massG.nullable(),
  fullG: massG.nullable(),
});

/** What an operator can enter in a test; a trail item names one of them. */
export const ENTERED = [
  "product",
  "lot",
  "line",
  "samplingPoint",
  "chargeG",
  "emptyG",
  "fullG",
  "shaking",
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

/** Everything entered in one test, with copies of all that it is judged against, so later edits change no verdict. */
export const testFields = {
  testId: code,
  station: code,
  startedAt: moment,
  product: ProductSchema,
  lot: text(40),
  line: text(40),
  samplingPoint: text(40),
  chargeG: massG.nullable(),
  balance: BalanceSchema,
  program: ProgramSchema.nullable(),
  weighings: z.array(WeighingSchema).min(2).max(65),
  shaking: ShakingSchema,
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
export type TestRecord = z.infer<typeof TestRecordSchema>;
export type Disposition = (typeof DISPOSITIONS)[number];
export type TestVerdict = (typeof TEST_VERDICTS)[number];
export type ProductVerdict = (typeof PRODUCT_VERDICTS)[number];
