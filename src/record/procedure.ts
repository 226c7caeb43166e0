import { z } from "zod";
import { apertureUm, massG } from "./fields.ts";

/** The named, dated sets of rules for a valid test; `own` has no figures but those that the product gives. */
export const RULE_SET_IDS = [
  "own",
  "astm-c136-2020",
  "astm-c136-2006",
  "aashto-t27-2011",
  "en-933-1-2012",
  "iso-2591-1-1988",
  "asae-s319-4",
  "usp-786",
  "astm-d1921",
  "iso-11125-2",
  "afs-sand",
] as const;

export const SEVERITIES = ["note", "warning", "invalidates"] as const;
export const LOAD_RULES = ["area", "root-of-aperture", "own", "none"] as const;

const severity = z.enum(SEVERITIES);
const limitG = massG.gt(0);
const sideMm = z.number().positive().max(2000);

/** Diameter of a round sieve frame, or inner sides of a rectangular one, in mm. */
export const FrameSchema = z.union([sideMm, z.strictObject({ widthMm: sideMm, lengthMm: sideMm })]);

/** Residue that one sieve may hold; a limit in g, for all sieves or one by one, belongs to the rule `own`. */
const load = z
  .strictObject({
    rule: z.enum(LOAD_RULES).optional(),
    limitG: limitG.optional(),
    perSieve: z.array(z.strictObject({ apertureUm, limitG })).max(64).optional(),
    overload: severity.optional(),
  })
  .refine(
    (l) => (l.rule === "own") === (l.limitG !== undefined || l.perSieve !== undefined),
    'needs limitG or perSieve exactly when its rule is "own"',
  );

/** Sieving is complete when what passes in the period is at most (or below) this share of the charge or residue. */
export const EndPointCriterionSchema = z.strictObject({
  of: z.enum(["charge", "residue"]),
  limitPct: z.number().positive().max(100),
  periodS: z.number().positive().max(3600),
  /** The limit itself no longer counts as complete. */
  below: z.boolean().optional(),
  /** A smaller mass than this is enough by itself. */
  orG: massG.optional(),
  /** A residue below this share of the charge has a limit of its own. */
  small: z
    .strictObject({ belowPct: z.number().positive().max(100), limitPct: z.number().positive().max(100) })
    .optional(),
  sieves: z.enum(["every", "finest loaded", "any"]),
});

/**
 * How a product wants its tests checked: a rule set by name and what the product decides otherwise. The limit of
 * loss and the charge range stay in the method itself (`maxLossPct`, `chargeG`) and win over the rule set's.
 */
export const ProcedureChoiceSchema = z.strictObject({
  ruleSet: z.enum(RULE_SET_IDS),
  frameMm: FrameSchema.optional(),
  charge: z
    .strictObject({ largestParticleMm: z.number().positive().max(300).optional(), outside: severity.optional() })
    .optional(),
  load: load.optional(),
  endPoint: z
    .strictObject({
      criterion: EndPointCriterionSchema.optional(),
      required: z.boolean().optional(),
      notReached: severity.optional(),
    })
    .optional(),
  balance: z
    .strictObject({
      required: z.boolean().optional(),
      interval: z
        .union([z.enum(["shift", "day"]), z.strictObject({ hours: z.number().positive().max(8784) })])
        .optional(),
      readabilityPct: z.number().positive().max(100).optional(),
    })
    .optional(),
  program: z.strictObject({ required: z.boolean().optional(), deviation: severity.optional() }).optional(),
  moisture: z
    .strictObject({
      maxPct: z.number().positive().max(1000),
      required: z.boolean().optional(),
      above: severity.optional(),
    })
    .optional(),
  sieves: z.strictObject({ required: z.boolean().optional() }).optional(),
});

export type RuleSetId = (typeof RULE_SET_IDS)[number];
export type Severity = (typeof SEVERITIES)[number];
export type Frame = z.infer<typeof FrameSchema>;
export type EndPointCriterion = z.infer<typeof EndPointCriterionSchema>;
export type ProcedureChoice = z.infer<typeof ProcedureChoiceSchema>;
