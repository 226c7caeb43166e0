import type { Notice } from "../assess.ts";
import type { Product } from "../record/product.ts";
import { dataFolder } from "../store/dataFolder.ts";
import { reached, type Step } from "./ending.ts";
import type { EvaluateOptions } from "./evaluateOptions.ts";
import type { Io } from "./io.ts";
import { dayOf, productNamed } from "./productNamed.ts";
import { readShelf } from "./shelf.ts";

/** What a sheet is judged against, and what there is to say of that. */
export interface Against {
  readonly product: Product | null;
  readonly notices: readonly Notice[];
}

const NOTHING: Against = { product: null, notices: [] };

/** The product named on the command line, else the one named on the sheet if the library has it, else nothing. */
export async function against(onSheet: string | undefined, options: EvaluateOptions, io: Io): Promise<Step<Against>> {
  const folder = dataFolder(options.data, io.env);
  if (options.product !== undefined) {
    const named = await productNamed(options.product, folder, io);
    if (!named.ok) return named;
    const notices = [...otherNamed(onSheet, named.value), ...notInForce(named.value, dayOf(io))];
    return reached({ product: named.value, notices });
  }
  if (onSheet === undefined) return reached(NOTHING);
  const { products, day, problems } = await readShelf(folder, io);
  const product = products.inForce(onSheet, day);
  return reached(product ? { product, notices: [] } : { product, notices: [notFound(onSheet, folder, problems[0])] });
}

function notFound(code: string, folder: string, problem: string | undefined): Notice {
  const why = problem ?? `it is not in the library of ${folder}, or not in force today`;
  return { id: "product-unknown", severity: "warning", text: `the sheet names ${code}, not judged: ${why}` };
}

function notInForce({ code, revision, effective }: Product, day: string): readonly Notice[] {
  if (effective === undefined || effective <= day) return [];
  const text = `${code} revision ${revision} comes into force on ${effective} only: judged against it all the same`;
  return [{ id: "product-not-in-force", severity: "warning", text }];
}

function otherNamed(onSheet: string | undefined, { code }: Product): readonly Notice[] {
  if (onSheet === undefined || onSheet === code) return [];
  return [
    { id: "product-other", severity: "warning", text: `the sheet names ${onSheet}, it was judged against ${code}` },
  ];
}
