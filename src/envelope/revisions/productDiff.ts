import type { Decision } from "../../record/decision.ts";
import type { ProductContent } from "../../record/productDraft.ts";
import { apertureChanges } from "./apertureChanges.ts";
import { type Change, type Compare, field, unit } from "./change.ts";
import { guardText } from "./decisionText.ts";
import { stackChanges } from "./lists.ts";
import { METHOD_FIELDS } from "./methodFields.ts";
import { PROCEDURE_FIELDS } from "./procedureFields.ts";
import { shownName } from "./shownNames.ts";
import { UNCERTAINTY_FIELDS } from "./uncertaintyFields.ts";
import { wishChanges } from "./wishChanges.ts";

export type { Change } from "./change.ts";

const compareText = (compare: NonNullable<Decision["compare"]>): string =>
  compare === "absolute" ? "absolute" : `rounded to ${compare.roundedTo}`;

const listText = (ids: readonly string[]): string => (ids.length === 0 ? "nothing" : ids.map(shownName).join(", "));

/** Who and when, not what: these change with every revision. */
const CONTROL_FIELDS: readonly Compare[] = [
  field("revision", "revision", (p) => p.revision),
  field("effective", "in force from", (p) => p.effective, String, "no day"),
  field("author", "written by", (p) => p.author, String, "nobody named"),
  field("approvedBy", "approved by", (p) => p.approvedBy, String, "nobody named"),
  field(
    "reason",
    "reason",
    (p) => p.reason,
    (words) => `"${words}"`,
  ),
];

const CONTENT_FIELDS: readonly Compare[] = [
  field("code", "code", (p) => p.code),
  field(
    "name",
    "name",
    (p) => p.name,
    (name) => `"${name}"`,
  ),
  stackChanges,
  apertureChanges,
  wishChanges,
  field("decision.rule", "decision", (p) => p.decision?.rule, String, "simple, not stated"),
  field("decision.guards", "decision: guarded", (p) => p.decision?.guards, String, "acceptance, not stated"),
  field("decision.guard", "decision: guard band", (p) => p.decision?.guard, guardText, "1.645 u, not stated"),
  field("decision.side", "decision: guard band at", (p) => p.decision?.side, String, "both ends, not stated"),
  field("decision.compare", "decision: compared", (p) => p.decision?.compare, compareText, "absolute, not stated"),
  ...METHOD_FIELDS,
  ...PROCEDURE_FIELDS,
  field("show", "shown", (p) => p.show, listText, "the values asked for"),
  field("material.particleDensityKgM3", "density", (p) => p.material?.particleDensityKgM3, unit("kg/m3")),
  field("material.surfaceShapeFactor", "surface shape factor", (p) => p.material?.surfaceShapeFactor),
  field("material.volumeShapeFactor", "volume shape factor", (p) => p.material?.volumeShapeFactor),
  field("material.sphericity", "sphericity", (p) => p.material?.sphericity),
  ...UNCERTAINTY_FIELDS,
];

const compared = (fields: readonly Compare[], before: ProductContent, after: ProductContent): readonly Change[] =>
  fields.flatMap((compare) => compare(before, after));

/**
 * What changed from one revision to another in what is tested and judged: stack, limits, decision, method, what is shown,
 * material. Every field of a product counts; a default that is stated now and was not before is told as well.
 *
 * @example contentDiff(rev3, rev4) // => [{ field: "envelope", words: "passing at 500 um: at most 12 % -> 10 %" }]
 */
export const contentDiff = (before: ProductContent, after: ProductContent): readonly Change[] =>
  compared(CONTENT_FIELDS, before, after);

/** As `contentDiff`, and before it who wrote and approved it, since when it holds, and why. Nothing for the same revision. */
export const productDiff = (before: ProductContent, after: ProductContent): readonly Change[] => [
  ...compared(CONTROL_FIELDS, before, after),
  ...contentDiff(before, after),
];
