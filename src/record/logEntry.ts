import { z } from "zod";
import { correctionFields, reason, standingFields } from "./amendment.ts";
import { BalanceCheckSchema } from "./checks.ts";
import { STAGES } from "./draft.ts";
import { code, day, initials, moment, sha256, text } from "./fields.ts";
import { careFields, registeredFields } from "./register.ts";
import { OPERATOR_EVENTS, ROLES, SIGN_ON_EVENTS, SIGN_ON_RULES } from "./roles.ts";
import {
  adjustmentFields,
  frozenFields,
  handoverFields,
  handoverTakenFields,
  holdClosedFields,
  holdFields,
} from "./shiftEvents.ts";
import { TestRecordSchema, testFields } from "./test.ts";

/** What is common to every entry: its number without gaps, when, where, by whom, and the seal of the entry before. */
const sealed = {
  number: z.int().positive(),
  at: moment,
  day,
  station: code,
  by: initials,
  /** Whoever `by` names had signed on with a PIN; without it the initials are all that is known. */
  signedOn: z.literal(true).optional(),
  /** SHA-256 of the entry before, over its canonical JSON (RFC 8785); 64 zeros for the first. */
  previous: sha256,
};

export const TestEntrySchema = z.strictObject({ kind: z.literal("test"), ...sealed, test: TestRecordSchema });

/** A product revision was loaded into the library: which file, and the SHA-256 of its bytes. */
export const ProductLoadedSchema = z.strictObject({
  kind: z.literal("product loaded"),
  ...sealed,
  code,
  revision: z.int().positive(),
  from: text(400),
  sha256,
  /** SHA-256 of its canonical JSON, by which what lies in the library is known again; entries of older programs have none. */
  contentSha256: sha256.optional(),
});

/** A shaker program or a stack was loaded into the library: from which file, the SHA-256 of its bytes and of its canonical JSON. */
export const ProgramLoadedSchema = z.strictObject({
  kind: z.literal("program loaded"),
  ...sealed,
  what: z.enum(["program", "stack"]),
  code,
  from: text(400),
  sha256,
  contentSha256: sha256,
});

/** A balance was checked with its weights before use; whether it passed is worked out, never stored. */
export const BalanceCheckEntrySchema = z.strictObject({
  kind: z.literal("balance check"),
  ...sealed,
  check: BalanceCheckSchema,
});

/** Something was done to look after sieves. */
export const CareEntrySchema = z.strictObject({ kind: z.literal("care"), ...sealed, ...careFields });

/** A sieve, set, balance, check weight or reference material was registered, or its entry in the register changed. */
export const RegisteredSchema = z.strictObject({ kind: z.literal("registered"), ...sealed, ...registeredFields });

/** A remark of the shift, bound to no test. */
export const NoteSchema = z.strictObject({ kind: z.literal("note"), ...sealed, text: text(400) });

/** What is to be read otherwise in a recorded test, by whom, why, and the verdicts that follow from it. */
export const CorrectionSchema = z.strictObject({ kind: z.literal("correction"), ...sealed, ...correctionFields });
export const VoidedSchema = z.strictObject({ kind: z.literal("voided"), ...sealed, ...standingFields });
export const ReinstatedSchema = z.strictObject({ kind: z.literal("reinstated"), ...sealed, ...standingFields });
export const WaivedSchema = z.strictObject({ kind: z.literal("waived"), ...sealed, ...standingFields });

/** A test in work that came to nothing (dropped, spilled), with all that had been entered in it. */
export const TestEndedSchema = z.strictObject({
  kind: z.literal("test ended"),
  ...sealed,
  stage: z.enum(STAGES),
  test: z.strictObject(testFields),
  reason,
});

/** A draft of a product became a revision: who wrote it, who let it go, why, and the SHA-256 of its canonical JSON. */
export const ProductPublishedSchema = z.strictObject({
  kind: z.literal("product published"),
  ...sealed,
  code,
  revision: z.int().positive(),
  author: initials,
  effective: day.nullable(),
  reason,
  sha256,
});

/** SHA-256 of the list of people as it was from here on; absent in entries of older programs and where there is no list. */
const listed = { listSha256: sha256.optional() };

/** Somebody came or went, or was kept out. */
export const SignOnSchema = z.strictObject({
  kind: z.literal("sign-on"),
  ...sealed,
  who: initials,
  event: z.enum(SIGN_ON_EVENTS),
  ...listed,
});

/** The list of operators was changed; PINs and what is kept of them never get here. */
export const OperatorChangedSchema = z.strictObject({
  kind: z.literal("operator"),
  ...sealed,
  who: initials,
  name: text(60),
  event: z.enum(OPERATOR_EVENTS),
  role: z.enum(ROLES),
  reason: text(400),
  ...listed,
});

/** Whether this station asks people to sign on, from here on. */
export const StationDeclaredSchema = z.strictObject({
  kind: z.literal("station declared"),
  ...sealed,
  signOn: z.enum(SIGN_ON_RULES),
  reason: text(400),
  ...listed,
});

/** The program found something amiss with the station's files and says so where it can't be lost. */
export const FindingSchema = z.strictObject({ kind: z.literal("finding"), ...sealed, found: text(400) });

/** The computer's clock was set: where it stood and where it stands. */
export const ClockSetSchema = z.strictObject({
  kind: z.literal("clock set"),
  ...sealed,
  from: moment,
  byS: z.number(),
});

/** A copy of the station's files was made: where, how many, and the SHA-256 of its manifest. */
export const BackupSchema = z.strictObject({
  kind: z.literal("backup"),
  ...sealed,
  to: text(400),
  files: z.int().min(0),
  sha256,
});

/** The station's files come from a copy: which, and where the log of the copy ended. */
export const RestoredSchema = z.strictObject({
  kind: z.literal("restored"),
  ...sealed,
  from: text(400),
  sha256,
  head: z.strictObject({ number: z.int().min(0), seal: sha256 }),
  /** Where the log ended that was moved out of the way; null when there was none. */
  replaced: z.strictObject({ number: z.int().min(0), seal: sha256, keptIn: text(400) }).nullable(),
});

/** What happens on a shift besides tests. */
export const HoldOpenedSchema = z.strictObject({ kind: z.literal("hold opened"), ...sealed, ...holdFields });
export const HoldClosedSchema = z.strictObject({ kind: z.literal("hold closed"), ...sealed, ...holdClosedFields });
export const LineAdjustedSchema = z.strictObject({ kind: z.literal("line adjusted"), ...sealed, ...adjustmentFields });
export const HandoverSchema = z.strictObject({ kind: z.literal("handover"), ...sealed, ...handoverFields });
export const HandoverTakenSchema = z.strictObject({
  kind: z.literal("handover taken"),
  ...sealed,
  ...handoverTakenFields,
});
export const LimitsFrozenSchema = z.strictObject({ kind: z.literal("limits frozen"), ...sealed, ...frozenFields });

export const LogEntrySchema = z.discriminatedUnion("kind", [
  TestEntrySchema,
  ProductLoadedSchema,
  ProgramLoadedSchema,
  BalanceCheckEntrySchema,
  NoteSchema,
  CorrectionSchema,
  VoidedSchema,
  ReinstatedSchema,
  WaivedSchema,
  TestEndedSchema,
  ProductPublishedSchema,
  SignOnSchema,
  OperatorChangedSchema,
  StationDeclaredSchema,
  FindingSchema,
  ClockSetSchema,
  BackupSchema,
  RestoredSchema,
  HoldOpenedSchema,
  HoldClosedSchema,
  LineAdjustedSchema,
  HandoverSchema,
  HandoverTakenSchema,
  LimitsFrozenSchema,
  CareEntrySchema,
  RegisteredSchema,
]);

/** All entries of one production day: `log/2026/11/2026-11-24.json`. */
export const DayFileSchema = z.strictObject({
  schema: z.literal("sievewright.day/1"),
  day,
  entries: z.array(LogEntrySchema),
  /** In the first line: the SHA-256 of the text behind that line. It proves nothing (the seals do) and spares a reading. */
  sum: sha256.optional(),
});

/** Where the chain ends: `log/head.json`. */
export const HeadSchema = z.strictObject({
  schema: z.literal("sievewright.head/1"),
  number: z.int().min(0),
  day: day.nullable(),
  seal: sha256,
});

export type LogEntry = z.infer<typeof LogEntrySchema>;
export type CareEntry = z.infer<typeof CareEntrySchema>;
export type RegisteredEntry = z.infer<typeof RegisteredSchema>;
export type TestEntry = z.infer<typeof TestEntrySchema>;
/** A later entry about a recorded test. */
export type Amendment = z.infer<
  typeof CorrectionSchema | typeof VoidedSchema | typeof ReinstatedSchema | typeof WaivedSchema
>;
/** A day without the sum over its file. */
export type DayFile = Omit<z.infer<typeof DayFileSchema>, "sum">;
export type Head = z.infer<typeof HeadSchema>;

type Unsealed<T> = T extends LogEntry ? Omit<T, "number" | "day" | "station" | "previous" | "signedOn"> : never;
/** An entry before the store numbers, dates and seals it. */
export type NewEntry = Unsealed<LogEntry>;

type Untimed<T> = T extends NewEntry ? Omit<T, "at"> : never;
/** An entry before it is known when it will be recorded. */
export type UntimedEntry = Untimed<NewEntry>;
