import { z } from "zod";
import { CareSchema } from "./care.ts";
import { BalanceCheckSchema } from "./checks.ts";
import { apertureUm, code, day, initials, massG, moment, sha256 } from "./fields.ts";
import { AmendmentRefSchema } from "./indexRow.ts";
import { RegisterItemSchema } from "./register.ts";

const number = z.int().positive();
const CARE_DONE = [
  "cleaning",
  "repair",
  "quarantine",
  "return to service",
  "retirement",
  "inspection",
  "reference check",
] as const;

/** What a sieve was used for. */
export const TallySchema = z.strictObject({
  tests: z.int().min(0),
  sievedMin: z.number().min(0),
  passedKg: z.number().min(0),
  /** Tests whose time on the shaker is not known. */
  untimed: z.int().min(0),
});

/** One weighing of an empty sieve in a recorded test, and where that test lies in the log. */
export const WeighedEmptySchema = z.strictObject({ number, day, at: moment, testId: code, emptyG: massG });

/** That something was done, and where the log tells of it. */
export const CareToldSchema = z.strictObject({ number, day, at: moment, by: initials, did: z.enum(CARE_DONE) });

/** The life of one sieve, by its serial. */
export const SieveLifeSchema = z.strictObject({
  serial: code,
  /** As the latest test had it; null while it was in none. */
  apertureUm: apertureUm.nullable(),
  /** Since its latest complete inspection, and in all. */
  used: TallySchema,
  ever: TallySchema,
  /** Oldest first; the older ones thinned out, so that a life of any length stays small. */
  weighings: z.array(WeighedEmptySchema).max(400),
  /** From when on its empty masses are of one kind, and its first cleaning since. */
  begunAt: moment.nullable(),
  cleanedAt: moment.nullable(),
  /** The latest entries of the care log about it, oldest first, and how many there are in all. */
  told: z.array(CareToldSchema).max(400),
  toldInAll: z.int().min(0),
});

export const CareNoteSchema = z.strictObject({ number, day, at: moment, by: initials, care: CareSchema });

export const RegisterRowSchema = z.strictObject({
  item: RegisterItemSchema,
  /** The entries that registered it and changed it, oldest first. */
  entries: z.array(z.strictObject({ number, day })).min(1),
});

/**
 * `index/care.json`: what the log tells of sieves, balances and weights, gathered so that nobody need read the whole log.
 * Drawn from the log alone; `head` is the entry up to which it was drawn.
 */
export const CareLedgerSchema = z.strictObject({
  schema: z.literal("sievewright.careLedger/1"),
  /** By which rules it was drawn; by others, and it is drawn again. */
  drawnBy: z.int().positive(),
  head: z.strictObject({ number: z.int().min(0), day: day.nullable(), seal: sha256 }),
  lives: z.array(SieveLifeSchema),
  /** Entries of the care log that still bear on the condition of a sieve. */
  notes: z.array(CareNoteSchema),
  register: z.array(RegisterRowSchema),
  /** The latest check of each balance. */
  checks: z.array(z.strictObject({ number, day, check: BalanceCheckSchema })),
  /** The set that each product was tested with last. */
  sets: z.array(z.strictObject({ product: code, set: code })),
  /** Later entries about tests of known sieves; absent where there are none. */
  amendments: z.array(AmendmentRefSchema).optional(),
  /** Absent when it was drawn from the whole log, else the days it was drawn from: entries of others could not be read. */
  short: z.array(day).optional(),
  sum: sha256,
});

export type Tally = z.infer<typeof TallySchema>;
export type WeighedEmpty = z.infer<typeof WeighedEmptySchema>;
export type CareTold = z.infer<typeof CareToldSchema>;
export type SieveLife = z.infer<typeof SieveLifeSchema>;
export type LedgerNote = z.infer<typeof CareNoteSchema>;
export type RegisterRow = z.infer<typeof RegisterRowSchema>;
export type CareLedgerFile = z.infer<typeof CareLedgerSchema>;
