import { z } from "zod";
import { apertureUm, code, day, text } from "./fields.ts";

export const APERTURE_CHOICES = ["nominal", "certified", "effective"] as const;

const certificate = z.strictObject({ number: text(60).optional(), day, laboratory: text(80) });
/** The entry of the care log that a certified material was run in. */
const check = z.strictObject({ number: z.int().positive(), day, material: code });

/** What a mean aperture rests on. */
export const RESTS_ON = z.union([z.strictObject({ certificate }), z.strictObject({ check })]);

const known = z.strictObject({
  apertureUm,
  serial: code,
  meanUm: apertureUm,
  /** Expanded uncertainty (k = 2) of the mean, where it is known. */
  expandedUm: z.number().positive().max(1e5).optional(),
  restsOn: RESTS_ON,
  /** What speaks against relying on it; it is used all the same. */
  doubt: text(200).optional(),
});

const unknown = z.strictObject({ apertureUm, serial: code, lacks: text(200) });

/**
 * The mean aperture of one sieve by its certificate or by a reference material, as known when it was used, with what it
 * rests on; or what was lacking then. Copied into the test, so that nothing is looked up again.
 */
export const MeanApertureSchema = z.union([known, unknown], "must tell meanUm with what it rests on, or what it lacks");

/** Which aperture a product's curve is drawn over: a declared choice, shown on the record. */
export type ApertureChoice = (typeof APERTURE_CHOICES)[number];
export type MeanAperture = z.infer<typeof MeanApertureSchema>;
export type MeanApertureKnown = z.infer<typeof known>;
