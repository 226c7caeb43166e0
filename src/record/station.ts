import { z } from "zod";
import { WEIGHT_CLASSES } from "./checks.ts";
import { code, initials, massG, text } from "./fields.ts";

export const BalanceSchema = z.strictObject({
  id: code,
  capacityG: massG,
  readabilityG: z.number().positive().max(1000),
});

const localTime = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, "is not a time like 06:00");

/** A weight that the balance is checked with, and how far its reading may be off. */
export const CheckWeightSchema = z.strictObject({
  weight: code,
  weightClass: z.enum(WEIGHT_CLASSES).optional(),
  nominalG: massG.gt(0),
  toleranceG: massG.gt(0),
});

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
  balances: z.array(BalanceSchema).min(1).max(20),
  checkWeights: z.array(CheckWeightSchema).max(20).optional(),
  lines: z.array(text(40).min(1)).max(60),
  samplingPoints: z.array(text(40).min(1)).max(200),
  operators: z.array(z.strictObject({ initials, name: text(60) })).max(500),
  decimal: z.enum(["point", "comma"]).optional(),
  /** Data of the invented demo plant; every screen and page says so. */
  demo: z.boolean().optional(),
});

export type Station = z.infer<typeof StationSchema>;
export type CheckWeight = z.infer<typeof CheckWeightSchema>;
export type Balance = z.infer<typeof BalanceSchema>;
