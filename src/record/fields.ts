import { z } from "zod";
import { UNPRINTABLE } from "../entry/quoted.ts";
import { apertureOf } from "../series/designation.ts";

/** One line of text as a person types it: no control characters, no broken characters, of bounded length. */
export const text = (longest: number) =>
  z
    .string()
    .max(longest, `longer than ${longest} characters`)
    .refine((t) => !UNPRINTABLE.test(t), "has control or broken characters");

/** A name that also serves as part of a file name on any platform: letters, digits, dot, dash, underscore. */
export const code = z
  .string()
  .regex(
    /^[A-Za-z0-9](?:[A-Za-z0-9._-]{0,38}[A-Za-z0-9_-])?$/,
    "may hold letters, digits, dot, dash and underscore, at most 40",
  );

export const initials = text(8).min(1);
export const massG = z.number().min(0).max(1e7);
export const apertureUm = z.number().positive().max(1e6);
/** Whether an aperture is named ("No. 30", "3/8 in.", "1.18 mm") rather than measured in the unit of its field. */
export const isSieveName = (written: string): boolean => /[\p{L}#/"]/u.test(written);

/**
 * An aperture in a file that people write: um, or the name of a sieve ("No. 30", "3/8 in.", "1.18 mm"), which is
 * turned into um on reading. What is stored is always um.
 */
export const namedApertureUm = z.preprocess((written, context) => {
  if (typeof written !== "string" || !isSieveName(written)) return written;
  const read = apertureOf(written);
  if (read.ok) return read.value;
  context.addIssue({ code: "custom", message: read.reason });
  return z.NEVER;
}, apertureUm);

/** A local time with its offset from UTC, e.g. 2026-11-24T03:12:05+01:00. */
export const moment = z.iso.datetime({ offset: true });
export const day = z.iso.date();
export const sha256 = z.string().regex(/^[0-9a-f]{64}$/, "is not a SHA-256 in hexadecimal");

/** Lower and upper limit, both inclusive; at least one of them. */
export const limits = { min: z.number().optional(), max: z.number().optional() };
export const someLimit = (l: { min?: number | undefined; max?: number | undefined }) =>
  l.min !== undefined || l.max !== undefined;
export const inOrder = (l: { min?: number | undefined; max?: number | undefined }) =>
  l.min === undefined || l.max === undefined || l.min <= l.max;

/** The aperture of each sieve of a stack in um: positive, none twice. */
export const stackUm = z
  .array(namedApertureUm)
  .min(1)
  .max(64)
  .refine((stack) => new Set(stack).size === stack.length, "names an aperture twice");
