import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { firstFault, pathText } from "./faults.ts";
import { fileText } from "./fileText.ts";
import type { Path } from "./jsonScan.ts";
import { type JsonText, readJsonText } from "./jsonText.ts";
import { newerVersion } from "./newerVersion.ts";
import { type Product, ProductSchema } from "./product.ts";

/**
 * A product file.
 *
 * @returns the product, or one line: the first thing that is wrong, with its line, column and field
 * @example readProduct(bytes) // reason: "line 9, column 43: envelope[0].passingPct.max must be at most 100"
 */
export function readProduct(bytes: Uint8Array): Outcome<Product> {
  const text = fileText(bytes);
  if (!text.ok) return text;
  const read = readJsonText(text.value);
  if (!read.ok) return read;
  const { json } = read.value;
  const fault = newerVersion(json, "product");
  if (fault !== null) return refused(at(read.value, ["schema"], fault));
  const product = ProductSchema.safeParse(json);
  if (product.success) return accepted(product.data);
  const { path, reason } = firstFault(product.error, json);
  return refused(at(read.value, path, reason));
}

const at = (file: JsonText, path: Path, reason: string): string =>
  `${file.placeOf(path)}: ${pathText(path) || "the file"} ${reason}`;
