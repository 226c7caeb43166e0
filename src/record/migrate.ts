import type { z } from "zod";
import { quoted } from "../entry/quoted.ts";
import { isTooDeep } from "./nesting.ts";

type Json = Record<string, unknown>;

/** A kind of stored file. Lift n (from 0) turns version n+1 into n+2; add at the end, never change or remove one. */
export interface Kind<T> {
  readonly name: string;
  readonly schema: z.ZodType<T>;
  readonly lifts: readonly ((older: Json) => Json)[];
}

/** What came of reading the text of a stored file. */
export type ReadRecord<T> =
  | { readonly is: "read"; readonly value: T }
  | { readonly is: "not JSON"; readonly why: string }
  | { readonly is: "wrong kind"; readonly why: string }
  | { readonly is: "newer version"; readonly why: string }
  | { readonly is: "damaged"; readonly why: string };

export const currentVersion = (kind: Kind<unknown>): number => kind.lifts.length + 1;
export const schemaOf = (kind: Kind<unknown>, version = currentVersion(kind)): string =>
  `sievewright.${kind.name}/${version}`;

/**
 * Text of a stored file -> the record of the wanted kind, older versions lifted to the current one; or which of the four
 * things is wrong with it, in words. A byte-order mark in front, as some editors put there, is passed over.
 * Nothing is repaired and nothing unknown is dropped: a field that the schema doesn't know is damage.
 *
 * @param asWritten whether the text is known to be what a program wrote: it was checked then, and is not checked again
 */
export function readRecord<T>(text: string, kind: Kind<T>, asWritten = false): ReadRecord<T> {
  const bare = text.replace(/^\uFEFF/, "");
  if (bare.trim() === "") return { is: "not JSON", why: "the file is empty" };
  if (!asWritten && isTooDeep(bare))
    return { is: "not JSON", why: "the file nests brackets deeper than any record does" };
  const json = parsed(bare);
  if (json === undefined) return { is: "not JSON", why: "the file is not JSON" };
  const version = versionIn(json, kind);
  if (version === null) return { is: "wrong kind", why: `expected ${schemaOf(kind)}, found ${schemaIn(json)}` };
  if (version > currentVersion(kind)) {
    const why = `written by a newer Sievewright (${schemaOf(kind, version)}; this one knows ${schemaOf(kind)})`;
    return { is: "newer version", why };
  }
  if (asWritten && version === currentVersion(kind)) return { is: "read", value: json as T };
  return checked(lifted(json as Json, version, kind), kind);
}

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

/** What a JSON text says it is; null where it says nothing. */
const schemaNamed = (json: unknown): string | null =>
  typeof json === "object" && json !== null && "schema" in json && typeof json.schema === "string" ? json.schema : null;

const schemaIn = (json: unknown): string => {
  const named = schemaNamed(json);
  return named !== null && named.length <= 60 ? quoted(named, 60) : "no schema";
};

function versionIn(json: unknown, kind: Kind<unknown>): number | null {
  const version = /^sievewright\.([A-Za-z]+)\/([1-9]\d{0,5})$/.exec(schemaNamed(json) ?? "");
  return version?.[1] === kind.name ? Number(version[2]) : null;
}

function lifted(json: Json, version: number, kind: Kind<unknown>): Json {
  if (version === currentVersion(kind)) return json;
  const lift = kind.lifts.slice(version - 1).reduce((older, step) => step(older), json);
  return { ...lift, schema: schemaOf(kind) };
}

/** The library would compile its checks first, which takes longer than checking what a start reads and saves nothing later. */
function checked<T>(json: Json, kind: Kind<T>): ReadRecord<T> {
  const result = kind.schema.safeParse(json, { jitless: true });
  return result.success ? { is: "read", value: result.data } : { is: "damaged", why: faultInWords(result.error) };
}

/** The first thing that a schema found wrong, as "damaged at weighings, item 3, emptyG: expected number". */
export function faultInWords(error: z.ZodError): string {
  const issue = error.issues[0];
  if (issue === undefined) return "damaged";
  const words =
    issue.code === "unrecognized_keys"
      ? `unknown field ${issue.keys.map((key) => quoted(key)).join(", ")}`
      : issue.message.replace(/^Invalid input: /, "");
  return `damaged at ${placeInWords(issue.path)}: ${words}`;
}

/** ["weighings", 2, "emptyG"] -> "weighings, item 3, emptyG". */
const placeInWords = (path: readonly PropertyKey[]): string =>
  path.length === 0
    ? "the top level"
    : path.map((step) => (typeof step === "number" ? `item ${step + 1}` : nameInWords(String(step)))).join(", ");

/** A name as any of ours stands as it is; one that a stranger put there in quotes, on one line. */
const nameInWords = (name: string): string => (/^[\w@:.-]{1,60}$/.test(name) ? name : quoted(name));
