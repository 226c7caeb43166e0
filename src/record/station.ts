import { z } from "zod";
import { WEIGHT_CLASSES } from "./checks.ts";
import { code, initials, massG, text } from "./fields.ts";
import { ScannerSchema } from "./scanner.ts";
import { ScreenSettingSchema } from "./screen.ts";
import { InspectionScheduleSchema } from "./sieve.ts";
import { balanceFigures } from "./uncertainty.ts";

export const BalanceSchema = z.strictObject({
  id: code,
  capacityG: massG,
  readabilityG: z.number().positive().max(1000),
  ...balanceFigures,
});

const localTime = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, "is not a time like 06:00");

/** A weight that the balance is checked with, and how far its reading may be off. */
export const CheckWeightSchema = z.strictObject({
  weight: code,
  weightClass: z.enum(WEIGHT_CLASSES).optional(),
  nominalG: massG.gt(0),
  toleranceG: massG.gt(0),
});

export const WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;

/** A shift of the week: on which days it begins (without: on all), when, and until when, local times; it may end a day later. */
export const WeeklyShiftSchema = z.strictObject({
  name: text(40).min(1),
  on: z.array(z.enum(WEEKDAYS)).min(1).max(7).optional(),
  begins: localTime,
  ends: localTime,
});

/** When a product running on a line is to be sampled; more than one reason may be given. */
export const SamplingRuleSchema = z
  .strictObject({
    product: code,
    line: text(40).min(1),
    samplingPoint: text(40).optional(),
    everyHours: z
      .number()
      .positive()
      .max(24 * 31)
      .optional(),
    everyLot: z.literal(true).optional(),
    after: z
      .array(z.enum(["changeover", "adjustment"]))
      .min(1)
      .max(2)
      .optional(),
    /** From a fail until this many further lots have passed every lot is due, and by this many hours. */
    tightened: z
      .strictObject({ lots: z.int().min(1).max(50), everyHours: z.number().positive().optional() })
      .optional(),
    /** How long after it is due a sample counts as late; 15 min without it. */
    graceMinutes: z
      .number()
      .min(0)
      .max(24 * 60)
      .optional(),
  })
  .refine((rule) => rule.everyHours || rule.everyLot || rule.after, "needs everyHours, everyLot or after");

/** A place where tests are run: who it is, what it weighs with, what its day is. */
export const StationSchema = z.strictObject({
  schema: z.literal("sievewright.station/1"),
  station: code,
  plant: text(80),
  /** IANA name, e.g. Europe/Berlin. */
  timeZone: z.string().max(60),
  /** The production day begins at this local time; an earlier hour belongs to the day before. */
  dayBegins: localTime,
  /** When shifts begin, local time; without it the day is one shift. */
  shiftBegins: z.array(localTime).min(1).max(12).optional(),
  /** Shifts with names, days of the week and ends; they go before `shiftBegins`. */
  shifts: z.array(WeeklyShiftSchema).min(1).max(40).optional(),
  samplingPlan: z.array(SamplingRuleSchema).max(200).optional(),
  balances: z.array(BalanceSchema).min(1).max(20),
  checkWeights: z.array(CheckWeightSchema).max(20).optional(),
  lines: z.array(text(40).min(1)).max(60),
  samplingPoints: z.array(text(40).min(1)).max(200),
  operators: z.array(z.strictObject({ initials, name: text(60) })).max(500),
  decimal: z.enum(["point", "comma"]).optional(),
  /** Where the plant publishes products, programs and stacks; a relative path begins at the station's folder. */
  sharedFolder: text(400).min(1).optional(),
  /** Where automatic copies go (without: into the station's own folder) and how many are kept; 0 makes none. */
  backups: z.strictObject({ folder: text(400).min(1).optional(), keep: z.int().min(0).max(500).optional() }).optional(),
  screen: ScreenSettingSchema.optional(),
  /** What scanners and typing balances send. */
  scanner: ScannerSchema.optional(),
  /** When sieves are inspected that have no interval of their own; without it every six months. */
  sieveInspection: InspectionScheduleSchema.optional(),
  /** Data of the invented demo plant; every screen and page says so. */
  demo: z.boolean().optional(),
});

export type WeeklyShift = z.infer<typeof WeeklyShiftSchema>;
export type SamplingRule = z.infer<typeof SamplingRuleSchema>;
export type Station = z.infer<typeof StationSchema>;
export type CheckWeight = z.infer<typeof CheckWeightSchema>;
export type Balance = z.infer<typeof BalanceSchema>;
