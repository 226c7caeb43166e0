import { z } from "zod";
import { text } from "./fields.ts";

/** What a scan can be told to be by what it begins with. */
export const SCANNED = ["lot", "product", "line", "samplingPoint", "set", "sieve", "operator"] as const;

const mark = z.string().regex(/^(?:\p{L}{1,8}|[^\s\p{L}\p{N}.,+\-[\]]{1,2})$/u, "must be letters, or one or two signs");
const marks = z.array(mark).max(20);

const prefix = text(20)
  .min(1)
  .refine((t) => t === t.trim(), "begins or ends with a space");

/** One that begins like another would leave it open what a scan is. */
const tellApart = (prefixes: Partial<Record<string, string>>): boolean => {
  const all = Object.values(prefixes).map((one) => `${one}`.toLowerCase());
  return all.every((one, i) => all.every((other, k) => i === k || !other.startsWith(one)));
};

/** What scanners and balances that type send, as far as this station has settled it. */
export const ScannerSchema = z.strictObject({
  /** What the codes on labels begin with; without it a scan is told by what is registered, or goes to the field in hand. */
  prefixes: z
    .partialRecord(z.enum(SCANNED), prefix)
    .refine(tellApart, "has a prefix that begins like another")
    .optional(),
  /** Marks around the mass in what the balance types, letters in any case. */
  balance: z
    .strictObject({
      /** The reading stands still. */
      atRest: marks.optional(),
      /** The reading still moves. */
      moving: marks.optional(),
      /** Whatever else the balance types before or after a mass, to be passed over. */
      passedOver: marks.optional(),
    })
    .optional(),
});

export type Scanned = (typeof SCANNED)[number];
export type Scanner = z.infer<typeof ScannerSchema>;
