import { z } from "zod";
import { BalanceCheckSchema } from "./checks.ts";
import { code, day, initials, moment, sha256, text } from "./fields.ts";
import { TestRecordSchema } from "./test.ts";

/** What is common to every entry: its number without gaps, when, where, by whom, and the seal of the entry before. */
const sealed = {
  number: z.int().positive(),
  at: moment,
  day,
  station: code,
  by: initials,
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
});

/** A balance was checked with its weights before use; whether it passed is worked out, never stored. */
export const BalanceCheckEntrySchema = z.strictObject({
  kind: z.literal("balance check"),
  ...sealed,
  check: BalanceCheckSchema,
});

/** A remark of the shift, bound to no test. */
export const NoteSchema = z.strictObject({ kind: z.literal("note"), ...sealed, text: text(400) });

export const LogEntrySchema = z.discriminatedUnion("kind", [
  TestEntrySchema,
  ProductLoadedSchema,
  BalanceCheckEntrySchema,
  NoteSchema,
]);

/** All entries of one production day: `log/2026/11/2026-11-24.json`. */
export const DayFileSchema = z.strictObject({
  schema: z.literal("sievewright.day/1"),
  day,
  entries: z.array(LogEntrySchema),
});

/** Where the chain ends: `log/head.json`. */
export const HeadSchema = z.strictObject({
  schema: z.literal("sievewright.head/1"),
  number: z.int().min(0),
  day: day.nullable(),
  seal: sha256,
});

export type LogEntry = z.infer<typeof LogEntrySchema>;
export type TestEntry = z.infer<typeof TestEntrySchema>;
export type DayFile = z.infer<typeof DayFileSchema>;
export type Head = z.infer<typeof HeadSchema>;

type Unsealed<T> = T extends LogEntry ? Omit<T, "number" | "day" | "station" | "previous"> : never;
/** An entry before the store numbers, dates and seals it. */
export type NewEntry = Unsealed<LogEntry>;
