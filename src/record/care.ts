import { z } from "zod";
import { WEIGHT_CLASSES } from "./checks.ts";
import { apertureUm, code, day, massG, text } from "./fields.ts";

/** What is looked at before measuring: the cloth against even light, then the frame. */
export const LOOKS = ["light", "wrinkles", "tears", "solder", "seat"] as const;
export const CLEANINGS = ["brush", "ultrasonic", "wash", "tap"] as const;
export const BALANCE_CLASSES = ["I", "II", "III", "IIII"] as const;

const certificate = {
  number: text(60).optional(),
  day,
  laboratory: text(80),
  /** The day until which it is relied on. */
  due: day.optional(),
};

/** A balance in the register of what is weighed with. */
export const RegisteredBalanceSchema = z.strictObject({
  schema: z.literal("sievewright.balance/1"),
  id: code,
  serial: code.optional(),
  balanceClass: z.enum(BALANCE_CLASSES).optional(),
  capacityG: massG.gt(0),
  readabilityG: z.number().positive().max(1000),
  /** Standard deviation of weighing the same mass again. */
  repeatabilityG: z.number().positive().max(1000).optional(),
  calibration: z.strictObject(certificate).optional(),
  location: text(60).optional(),
});

/** A check weight in the register: its nominal mass and class, and what its certificate found. */
export const RegisteredWeightSchema = z.strictObject({
  schema: z.literal("sievewright.checkWeight/1"),
  weight: code,
  nominalG: massG.gt(0),
  weightClass: z.enum(WEIGHT_CLASSES).optional(),
  certificate: z
    .strictObject({ ...certificate, massG: massG.gt(0).optional(), expandedG: massG.optional() })
    .optional(),
});

const passingPct = z.number().min(0).max(100);
const falling = (points: readonly { apertureUm: number; passingPct: number }[]) =>
  points.every((p, i) => {
    const before = points[i - 1];
    return before === undefined || (p.apertureUm < before.apertureUm && p.passingPct <= before.passingPct);
  });

/** A certified reference material: its passing curve by mass, each point with its expanded uncertainty. */
export const ReferenceMaterialSchema = z.strictObject({
  schema: z.literal("sievewright.referenceMaterial/1"),
  code,
  name: text(80),
  unit: text(40).optional(),
  unitG: massG.gt(0).optional(),
  certificate: z.strictObject(certificate),
  /** By how much the certificate's uncertainties are expanded; 2 where nothing is said. */
  coverageFactor: z.number().min(1).max(4).optional(),
  points: z
    .array(z.strictObject({ apertureUm, passingPct, expandedPct: z.number().min(0).max(100) }))
    .min(2)
    .max(64)
    .refine(falling, "must run from the coarsest point to the finest, passing % never rising"),
});

const serials = z.array(code).min(1).max(64);
const reason = text(200).min(1);
const note = text(400).optional();
const apertures = z.array(apertureUm).min(1).max(2000);

/** Grains out of the mesh; the empty mass weighed afterwards becomes part of the sieve's own cleaned level. */
export const CleaningSchema = z.strictObject({
  did: z.literal("cleaning"),
  serials,
  how: z.enum(CLEANINGS),
  /** Empty masses weighed after cleaning, as far as weighed. */
  after: z
    .array(z.strictObject({ serial: code, emptyG: massG }))
    .max(64)
    .optional(),
  note,
});

export const RepairSchema = z.strictObject({ did: z.literal("repair"), serials, what: reason, note });
export const QuarantineSchema = z.strictObject({ did: z.literal("quarantine"), serials, reason, note });
export const ReturnSchema = z.strictObject({ did: z.literal("return to service"), serials, reason, note });
export const RetirementSchema = z.strictObject({ did: z.literal("retirement"), serials, reason, note });

/** A look at one sieve and, where apertures were measured, what they were. Whether it passed is worked out, never stored. */
export const InspectionSchema = z.strictObject({
  did: z.literal("inspection"),
  serial: code,
  looks: z.partialRecord(z.enum(LOOKS), z.enum(["good", "faulty"])),
  measured: z
    .strictObject({
      warpUm: apertures,
      weftUm: apertures.optional(),
      /** How many apertures the cloth has, where they were counted. */
      inCloth: z.int().positive().optional(),
      instrument: text(80).optional(),
    })
    .optional(),
  note,
});

/** A certified material run like a test: what each sieve passed. */
export const ReferenceCheckSchema = z.strictObject({
  did: z.literal("reference check"),
  material: ReferenceMaterialSchema,
  testId: code.optional(),
  found: z
    .array(
      z.strictObject({
        serial: code.optional(),
        apertureUm,
        passingPct,
        /** Expanded (k = 2) uncertainty of what was found, where one is known. */
        expandedPct: z.number().min(0).max(100).optional(),
      }),
    )
    .min(1)
    .max(64),
  note,
});

/** Everything that is done to look after sieves, as one entry of the care log. */
export const CareSchema = z.discriminatedUnion("did", [
  CleaningSchema,
  RepairSchema,
  QuarantineSchema,
  ReturnSchema,
  RetirementSchema,
  InspectionSchema,
  ReferenceCheckSchema,
]);

export type RegisteredBalance = z.infer<typeof RegisteredBalanceSchema>;
export type RegisteredWeight = z.infer<typeof RegisteredWeightSchema>;
export type ReferenceMaterial = z.infer<typeof ReferenceMaterialSchema>;
export type Inspection = z.infer<typeof InspectionSchema>;
export type Measured = NonNullable<Inspection["measured"]>;
export type ReferenceCheck = z.infer<typeof ReferenceCheckSchema>;
export type Care = z.infer<typeof CareSchema>;
export type Look = (typeof LOOKS)[number];

/** What the log says of a sieve that was brushed between two weighings of a test. */
export const cleanedInTest = (testId: string): string => `while weighing for test ${testId}`;
