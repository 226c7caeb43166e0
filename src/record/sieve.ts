import { z } from "zod";
import { apertureUm, code, day, moment, text } from "./fields.ts";

export const CLOTHS = ["woven wire", "perforated plate", "electroformed"] as const;
export const SIEVE_STATES = ["in service", "cleaning", "quarantine", "retired"] as const;

/** What a certificate says of one direction of the cloth: the mean of so many apertures and how they scatter. */
export const CertifiedDirectionSchema = z.strictObject({
  meanUm: apertureUm,
  deviationUm: z.number().min(0).max(1e5).optional(),
  /** The factor k of the certificate, where it gives one beside or instead of the standard deviation. */
  factorK: z.number().positive().max(100).optional(),
  measured: z.int().positive().max(1e6).optional(),
});

/** The certificate of a sieve: its apertures as a laboratory found them, along the warp and along the weft. */
export const SieveCertificateSchema = z.strictObject({
  number: text(60).optional(),
  day,
  laboratory: text(80),
  /** The day until which it is relied on. */
  due: day.optional(),
  warp: CertifiedDirectionSchema,
  /** Left out for cloth that has one direction only. */
  weft: CertifiedDirectionSchema.optional(),
  /** Expanded uncertainty (k = 2) of the mean aperture. */
  expandedUm: z.number().positive().max(1e5).optional(),
});

/** When a sieve is to be inspected: whichever of these comes first. */
export const InspectionScheduleSchema = z.strictObject({
  days: z.int().positive().max(3660).optional(),
  tests: z.int().positive().max(1e6).optional(),
  sievedMin: z.number().positive().max(1e7).optional(),
  passedKg: z.number().positive().max(1e7).optional(),
});

/** One physical test sieve. */
export const SieveSchema = z.strictObject({
  schema: z.literal("sievewright.sieve/1"),
  serial: code,
  apertureUm,
  /** Diameter of the frame. */
  frameMm: z.number().positive().max(2000).optional(),
  frameHeightMm: z.number().positive().max(1000).optional(),
  cloth: z.enum(CLOTHS).optional(),
  /** With its edition, e.g. "ISO 3310-1:2016". */
  standard: text(60).optional(),
  certificate: SieveCertificateSchema.optional(),
  firstUse: day.optional(),
  /** As the register was last written; the care log goes on from here. Left out: in service. */
  state: z.enum(SIEVE_STATES).optional(),
  stateReason: text(200).min(1).optional(),
  stateSince: day.optional(),
  location: text(60).optional(),
  /** Without it as the station says, else every six months. */
  inspection: InspectionScheduleSchema.optional(),
  /** The stack that the sieve belongs to. */
  stack: code.optional(),
});

/** A set of physical sieves that is used as one stack, coarsest first; the pan is understood. */
export const StackSchema = z.strictObject({
  schema: z.literal("sievewright.stack/1"),
  code,
  name: text(80),
  serials: z.array(code).min(1).max(64),
});

/** In the words of a test's own check: whether an overdue sieve invalidates is the product's choice. */
export const SIEVE_FITNESS = ["fit", "due", "overdue", "out of service"] as const;

/** What a sieve weighs is another thing after one of these. */
export const SIEVE_CHANGES = ["cleaning", "repair", "return to service"] as const;

/** What was done to a sieve, and when. */
export const SieveChangeSchema = z.strictObject({ did: z.enum(SIEVE_CHANGES), at: moment });

/** A sieve as it was known when a test was set out with it: copied into the test, so that later edits change nothing. */
export const SieveKnownSchema = z.strictObject({
  serial: code,
  apertureUm,
  state: z.enum(SIEVE_FITNESS),
  /** Why it is in this state. */
  text: text(400),
  /** The latest of what was done to it after it was weighed empty for the test and before it was weighed full. */
  changed: SieveChangeSchema.optional(),
});

export type Cloth = (typeof CLOTHS)[number];
export type SieveState = (typeof SIEVE_STATES)[number];
export type SieveCertificate = z.infer<typeof SieveCertificateSchema>;
export type Sieve = z.infer<typeof SieveSchema>;
export type Stack = z.infer<typeof StackSchema>;
export type SieveFitness = (typeof SIEVE_FITNESS)[number];
export type SieveChange = z.infer<typeof SieveChangeSchema>;
export type SieveKnown = z.infer<typeof SieveKnownSchema>;
export type InspectionSchedule = z.infer<typeof InspectionScheduleSchema>;
