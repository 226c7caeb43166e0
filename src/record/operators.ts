import { z } from "zod";
import { initials, moment, text } from "./fields.ts";
import { ROLES, SIGN_ON_RULES } from "./roles.ts";

const hex = (bytes: number) => z.string().regex(new RegExp(`^[0-9a-f]{${2 * bytes}}$`), `is not ${bytes} bytes in hex`);

/** More than this is never asked of a station's computer, whatever a file says. */
const MOST_MEMORY_BYTES = 256 * 2 ** 20;
const isPowerOfTwo = (n: number): boolean => Number.isInteger(Math.log2(n));

/** What is kept of a PIN: enough to recognise it, not enough to read it. Bytes in hexadecimal. */
export const VerifierSchema = z
  .strictObject({
    method: z.literal("scrypt"),
    n: z
      .int()
      .min(2)
      .max(2 ** 20)
      .refine(isPowerOfTwo, "is not a power of two"),
    r: z.int().min(1).max(64),
    p: z.int().min(1).max(16),
    salt: hex(16),
    hash: hex(32),
  })
  .refine(({ n, r }) => 128 * n * r <= MOST_MEMORY_BYTES, "asks for too much memory");

/** Initials that somebody signs on with. They begin with a letter, so that a PIN typed in their place is never kept. */
export const operatorInitials = initials.regex(
  /^\p{L}[\p{L}\p{N}.-]*$/u,
  "begin with a letter and hold letters, digits, dot and dash, at most 8",
);

export const PersonSchema = z.strictObject({
  initials: operatorInitials,
  name: text(60).refine((name) => name.trim() !== "", "is empty"),
  role: z.enum(ROLES),
  state: z.enum(["active", "retired"]),
  pin: VerifierSchema,
  pinSetAt: moment,
});

/** Wrong PINs since the last right one, for initials whether anybody has them or not; "" for the recovery code. */
export const TriesSchema = z.strictObject({
  who: text(8),
  count: z.int().min(1).max(100_000),
  lastAt: moment,
});

/** Upper and lower case are one: nobody is told apart from somebody else by them. */
export const sameInitials = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

const noneTwice = (people: readonly { readonly initials: string }[]): boolean =>
  new Set(people.map((person) => person.initials.toLowerCase())).size === people.length;

export const IDLE_MINUTES = { least: 1, most: 480, usual: 10 } as const;

/** `operators.json`: who may work at this station, and how they prove it. */
export const OperatorsSchema = z.strictObject({
  schema: z.literal("sievewright.operators/1"),
  signOn: z.enum(SIGN_ON_RULES),
  /** After so long without a key whoever is signed on is signed off. */
  idleMinutes: z.int().min(IDLE_MINUTES.least).max(IDLE_MINUTES.most),
  people: z.array(PersonSchema).min(1).max(500).refine(noneTwice, "has initials twice"),
  tries: z.array(TriesSchema).max(500),
  /** Of the code that lets an administrator in whose PIN is lost. */
  recovery: VerifierSchema,
});

export type Verifier = z.infer<typeof VerifierSchema>;
export type Person = z.infer<typeof PersonSchema>;
export type Tries = z.infer<typeof TriesSchema>;
export type Operators = z.infer<typeof OperatorsSchema>;
