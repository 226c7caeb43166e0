import { readFileSync } from "node:fs";
import { type Assessment, assess, type Circumstances } from "../../src/assess.ts";
import { sheetMasses } from "../../src/grading/sheetMasses.ts";
import type { Product } from "../../src/record/product.ts";
import { readProduct } from "../../src/record/readExchanged.ts";
import { readSheet } from "../../src/record/readSheet.ts";

const READABILITY_G = 0.01;
const shared = (name: string) => readFileSync(new URL(`../../shared/${name}`, import.meta.url));

/** A product of shared/, changed as a test needs it. */
export function product(code: string, change: Partial<Product> = {}): Product {
  const read = readProduct(shared(`products/${code}.json`));
  if (!read.ok) throw new Error(read.reason);
  return { ...read.value, ...change };
}

/** A sheet's text (or the name of one in shared/) assessed. */
export function assessed(
  sheet: string,
  against: Product | null = null,
  change: Partial<Circumstances> = {},
): Assessment {
  const read = readSheet(sheet.includes("\n") ? new TextEncoder().encode(sheet) : shared(`sheets/${sheet}`));
  if (!read.ok) throw new Error(read.reason);
  const masses = sheetMasses(read.value, READABILITY_G);
  if (!masses.ok) throw new Error(masses.reason);
  const found = assess(masses.value, against, { readabilityG: READABILITY_G, ...change });
  if (!found.ok) throw new Error(found.reason);
  return found.value;
}
