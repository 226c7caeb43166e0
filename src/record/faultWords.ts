import type { z } from "zod";

const FORMATS: Readonly<Record<string, string>> = {
  date: "is not a day like 2026-11-24",
  datetime: "is not a time with its offset like 2026-11-24T03:12:05+01:00",
};

const TYPES: Readonly<Record<string, string>> = {
  number: "a number",
  int: "a whole number",
  string: "text in quotes",
  boolean: "true or false",
  object: "an object { ... }",
  record: "an object { ... }",
  array: "a list [ ... ]",
};

/** Any complaint of a schema but those that have a place of their own, in words; `found` is what stands there. */
export function reasonFor(issue: z.core.$ZodIssue, found: unknown): string {
  switch (issue.code) {
    case "invalid_type":
      return typeReason(issue.expected, found);
    case "too_small":
      return sizeReason(issue.origin, Number(issue.minimum), issue.inclusive === false ? "above" : "at least");
    case "too_big":
      return sizeReason(issue.origin, Number(issue.maximum), issue.inclusive === false ? "below" : "at most");
    case "invalid_value":
      return `must be ${issue.values.map((allowed) => JSON.stringify(allowed)).join(" or ")}`;
    case "invalid_format":
      return FORMATS[issue.format] ?? issue.message;
    default:
      return issue.message;
  }
}

function typeReason(expected: string, found: unknown): string {
  if (found === undefined) return "is missing";
  if (typeof found === "number" && !Number.isFinite(found)) return "is too large for a number";
  return `must be ${TYPES[expected] ?? expected}`;
}

function sizeReason(origin: string, bound: number, relation: string): string {
  if (origin === "string") return relation === "at least" ? "is empty" : `is longer than ${bound} characters`;
  if (origin === "array") return `must have ${relation} ${bound} ${bound === 1 ? "item" : "items"}`;
  return `must be ${relation} ${bound}`;
}
