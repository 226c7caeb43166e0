import type { z } from "zod";
import { quoted } from "../entry/quoted.ts";
import { reasonFor } from "./faultWords.ts";
import type { Path } from "./jsonScan.ts";

type Issue = z.core.$ZodIssue;

/** What is wrong with something read, and where in it. */
export interface Fault {
  readonly path: Path;
  readonly reason: string;
}

const ORDINARY_NAME = /^[\p{Letter}\p{Number}_@-]{1,40}$/u;

/**
 * The path as people write it; a field name with anything unusual in it stands in quotes. The whole is "".
 *
 * @example pathText(["weighings", 2, "fullG"]) // => "weighings[2].fullG"
 */
export const pathText = (path: Path): string =>
  path.reduce<string>((text, step) => {
    if (typeof step === "number") return `${text}[${step}]`;
    const name = ORDINARY_NAME.test(String(step)) ? String(step) : quoted(String(step));
    return text === "" ? name : `${text}.${name}`;
  }, "");

/** The first of a schema's complaints about `json`, in the words of people who write such files. */
export function firstFault(error: z.ZodError, json: unknown): Fault {
  const [first] = error.issues;
  return first ? faultOf(first, json) : { path: [], reason: "is not as expected" };
}

function faultOf(issue: Issue, json: unknown): Fault {
  if (issue.code === "invalid_union") return unionFault(issue, json);
  if (issue.code === "unrecognized_keys") return unknownField(issue.path, issue.keys[0] ?? "");
  return { path: issue.path, reason: reasonFor(issue, valueAt(json, issue.path)) };
}

const unknownField = (owner: Path, name: string): Fault => ({ path: [...owner, name], reason: "is an unknown field" });

/** Of the forms that a union allows, the one that nearly fits speaks; if several do equally, the union does. */
function unionFault(issue: z.core.$ZodIssueInvalidUnion, json: unknown): Fault {
  const found = valueAt(json, issue.path);
  if (issue.errors.length === 0) return { path: issue.path, reason: notKnown(found) };
  const [strange] = issue.errors.map(strangeNames).reduce((all, some) => all.filter((name) => some.includes(name)));
  if (strange !== undefined) return unknownField(issue.path, strange);
  const near = nearest(issue.errors);
  const speaks = near?.path.length && near.code !== "unrecognized_keys" && valueAt(found, near.path) !== undefined;
  if (!speaks) return { path: issue.path, reason: issue.message };
  return faultOf({ ...near, path: [...issue.path, ...near.path] }, json);
}

const strangeNames = (complaints: readonly Issue[]): readonly string[] =>
  complaints.flatMap((issue) => (issue.code === "unrecognized_keys" && issue.path.length === 0 ? issue.keys : []));

/** The complaint of the one form that has a single one; where several have, the deepest. */
function nearest(forms: readonly (readonly Issue[])[]): Issue | undefined {
  const single = forms.filter((complaints) => complaints.length === 1).flat();
  const deepest = Math.max(...single.map((issue) => issue.path.length));
  const candidates = single.filter((issue) => issue.path.length === deepest);
  return candidates.length === 1 ? candidates[0] : undefined;
}

function notKnown(found: unknown): string {
  if (found === undefined) return "is missing";
  return `is not known: ${typeof found === "string" ? quoted(found) : quoted(JSON.stringify(found))}`;
}

const isOwner = (json: unknown): json is object => typeof json === "object" && json !== null;

const valueAt = (json: unknown, path: Path): unknown =>
  path.reduce<unknown>(
    (inner, step) => (isOwner(inner) && Object.hasOwn(inner, step) ? Reflect.get(inner, step) : undefined),
    json,
  );
