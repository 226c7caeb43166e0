import type { z } from "zod";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { type ReferenceMaterial, ReferenceMaterialSchema } from "./care.ts";
import { firstFault, pathText } from "./faults.ts";
import { fileText } from "./fileText.ts";
import type { Path } from "./jsonScan.ts";
import { type JsonText, readJsonText } from "./jsonText.ts";
import { type FileKind, newerVersion, REGISTER_KINDS } from "./newerVersion.ts";
import { type Product, ProductSchema } from "./product.ts";
import { type ProductContent, ProductDraftSchema } from "./productDraft.ts";
import { type Program, ProgramSchema } from "./program.ts";
import { type RegisterItem, RegisterItemSchema } from "./register.ts";
import { type Stack, StackSchema } from "./sieve.ts";

const at = (file: JsonText, path: Path, reason: string): string =>
  `${file.placeOf(path)}: ${pathText(path) || "the file"} ${reason}`;

function readAs<S extends z.ZodType>(bytes: Uint8Array, kinds: readonly FileKind[], schema: S): Outcome<z.infer<S>> {
  const text = fileText(bytes);
  if (!text.ok) return text;
  const read = readJsonText(text.value);
  if (!read.ok) return read;
  const { json } = read.value;
  const fault = newerVersion(json, ...kinds);
  if (fault !== null) return refused(at(read.value, ["schema"], fault));
  const parsed = schema.safeParse(json);
  if (parsed.success) return accepted(parsed.data);
  const { path, reason } = firstFault(parsed.error, json);
  return refused(at(read.value, path, reason));
}

/**
 * A product file.
 *
 * @returns the product, or one line: the first thing that is wrong, with its line, column and field
 * @example readProduct(bytes) // reason: "line 9, column 43: envelope[0].passingPct.max must be at most 100"
 */
export const readProduct = (bytes: Uint8Array): Outcome<Product> => readAs(bytes, ["product"], ProductSchema);

/** A program file; what is wrong with it is told as for a product. */
export const readProgram = (bytes: Uint8Array): Outcome<Program> => readAs(bytes, ["program"], ProgramSchema);

/** A stack file; what is wrong with it is told as for a product. */
export const readStack = (bytes: Uint8Array): Outcome<Stack> => readAs(bytes, ["stack"], StackSchema);

/** What a draft can be filled from: a product file, or the file of a draft that was discarded. */
export function readProductContent(bytes: Uint8Array): Outcome<ProductContent> {
  const text = fileText(bytes);
  const isDraft = text.ok && text.value.includes('"sievewright.productDraft/');
  return isDraft ? readAs(bytes, ["productDraft"], ProductDraftSchema) : readProduct(bytes);
}

/** A file for the register: a sieve, a set of sieves, a balance, a check weight or a reference material. */
export const readRegisterItem = (bytes: Uint8Array): Outcome<RegisterItem> =>
  readAs(bytes, REGISTER_KINDS, RegisterItemSchema);

/** The file of a certified reference material. */
export const readMaterial = (bytes: Uint8Array): Outcome<ReferenceMaterial> =>
  readAs(bytes, ["referenceMaterial"], ReferenceMaterialSchema);
