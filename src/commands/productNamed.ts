import type { Product } from "../record/product.ts";
import { readProduct } from "../record/readExchanged.ts";
import type { ProductShelf } from "../store/store.ts";
import { EXIT, ended, reached, type Step } from "./ending.ts";
import { inputFile, inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { readShelf } from "./shelf.ts";

export const looksLikePath = (name: string): boolean => name === "-" || /[\\/]|\.json$/i.test(name);

/** The product that `--product` names: a file if it looks like one, else a code of the library, else a file after all. */
export async function productNamed(name: string, folder: string, io: Io): Promise<Step<Product>> {
  if (looksLikePath(name)) return productIn(name, io);
  const { products, day, problems } = await readShelf(folder, io);
  const product = products.inForce(name, day);
  if (product) return reached(product);
  const file = await inputFile(name, io);
  if (file.ok) return productFrom(file.value, name);
  const why = problems[0] ?? whyNotInForce(name, products, folder, day);
  return ended(EXIT.notFound, `product ${name}: ${why}`);
}

/** The product of a file. */
export async function productIn(name: string, io: Io): Promise<Step<Product>> {
  const file = await inputFile(name, io);
  return file.ok ? productFrom(file.value, name) : file;
}

function productFrom(bytes: Uint8Array, name: string): Step<Product> {
  const product = readProduct(bytes);
  return product.ok ? product : ended(EXIT.badData, `${inputName(name)}: ${product.reason}`);
}

/** Today's date, for a product that comes from a file. */
export const dayOf = ({ now }: Io): string => now().slice(0, 10);

/** Why a code has no product today, and what to do. */
export function whyNotInForce(code: string, products: ProductShelf, folder: string, day: string): string {
  const [earliest] = products.revisions(code);
  if (earliest?.effective !== undefined && earliest.effective > day)
    return `no revision is in force on ${day}; the first is from ${earliest.effective}`;
  return `neither in the library of ${folder} nor a file here: load it with "sievewright product add FILE", or name its file`;
}
