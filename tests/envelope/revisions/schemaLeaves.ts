// The places of a product file where something can stand, read off the schema itself, so that none is forgotten.
import { z } from "zod";
import { ProductSchema } from "../../../src/record/product.ts";

interface JsonSchema {
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly items?: JsonSchema;
  readonly anyOf?: readonly JsonSchema[];
  readonly oneOf?: readonly JsonSchema[];
}

function leavesOf(schema: JsonSchema, path: string): string[] {
  const forms = schema.anyOf ?? schema.oneOf;
  if (forms) return forms.flatMap((form) => leavesOf(form, path));
  if (schema.items) return leavesOf(schema.items, `${path}[]`);
  if (!schema.properties) return [path];
  return Object.entries(schema.properties).flatMap(([name, inner]) =>
    leavesOf(inner, path === "" ? name : `${path}.${name}`),
  );
}

/** "method.chargeG.min", "envelope[].apertureUm", ...: each once. */
export const SCHEMA_LEAVES: readonly string[] = [
  ...new Set(leavesOf(z.toJSONSchema(ProductSchema, { io: "input" }) as JsonSchema, "")),
];

type Json = unknown;

/** The leaves of one product, as SCHEMA_LEAVES names them, each with the steps to where it stands. */
export function leavesIn(json: Json, path = "", steps: readonly (string | number)[] = []): [string, typeof steps][] {
  if (Array.isArray(json)) return json.flatMap((item, i) => leavesIn(item, `${path}[]`, [...steps, i]));
  if (typeof json !== "object" || json === null) return [[path, steps]];
  return Object.entries(json).flatMap(([name, inner]) =>
    leavesIn(inner, path === "" ? name : `${path}.${name}`, [...steps, name]),
  );
}

type Holder = Record<string | number, Json>;

/** A copy with what stands at a place replaced, or taken away (undefined). Lists that empty stay. */
export function withLeaf<T extends object>(of: T, steps: readonly (string | number)[], to: Json): T {
  const copy = structuredClone(of);
  let holder = copy as Holder;
  for (const step of steps.slice(0, -1)) holder = holder[step] as Holder;
  const last = steps.at(-1) ?? "";
  if (to === undefined && Array.isArray(holder)) holder.splice(Number(last), 1);
  else if (to === undefined) delete holder[last];
  else holder[last] = to;
  return copy;
}
