import { productPage } from "../report/productPage.ts";
import { dataFolder } from "../store/dataFolder.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { readShelf } from "./shelf.ts";

export interface ProductShowOptions {
  readonly revision?: string;
  readonly json?: boolean;
  readonly data?: string;
}

/** `sievewright product show CODE`: one revision of a product, as a page or as its file. */
export async function productShow(code: string, options: ProductShowOptions, io: Io): Promise<Ending> {
  const { revision } = options;
  if (revision !== undefined && !/^[1-9]\d{0,8}$/.test(revision))
    return faulty(EXIT.usage, `--revision ${revision}: give the number of a revision`);
  const folder = dataFolder(options.data, io.env);
  const { products, day, problems } = await readShelf(folder, io);
  const revisions = products.revisions(code);
  const product =
    revision === undefined
      ? (products.inForce(code, day) ?? revisions.at(-1))
      : revisions.find((one) => one.revision === Number(revision));
  if (product) return done(options.json ? `${printedJson(product)}\n` : productPage(product));
  const what = revision === undefined ? code : `${code} revision ${revision}`;
  const known =
    revisions.length > 0 ? `it has revisions ${revisions.map((one) => one.revision).join(", ")}` : "see product list";
  return faulty(EXIT.notFound, problems[0] ?? `${what} is not in the library of ${folder}: ${known}`);
}
