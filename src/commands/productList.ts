import { inColumns } from "../report/columns.ts";
import { dataFolder } from "../store/dataFolder.ts";
import type { ProductShelf } from "../store/store.ts";
import { type Ending, EXIT } from "./ending.ts";
import type { Io } from "./io.ts";
import { dayOf } from "./productNamed.ts";
import { readShelf } from "./shelf.ts";

/** What a list tells of one product; `revision` is the one in force today, null if none is. */
interface Listed {
  readonly code: string;
  readonly name: string;
  readonly revision: number | null;
  readonly revisions: readonly number[];
}

/** `sievewright product list`: the library, a line a product. */
export async function productList(options: { json?: boolean; data?: string }, io: Io): Promise<Ending> {
  const folder = dataFolder(options.data, io.env);
  const { products, problems } = await readShelf(folder);
  const listed = products.codes.map((code) => listedAs(code, products, dayOf(io)));
  const out = options.json ? `${JSON.stringify(listed, null, 2)}\n` : listText(listed, folder);
  return { code: EXIT.ok, out, remark: () => (problems.length > 0 ? problems.join("; ") : null) };
}

function listedAs(code: string, products: ProductShelf, day: string): Listed {
  const revisions = products.revisions(code);
  const inForce = products.inForce(code, day);
  const name = (inForce ?? revisions.at(-1))?.name ?? "";
  return { code, name, revision: inForce?.revision ?? null, revisions: revisions.map((one) => one.revision) };
}

function listText(listed: readonly Listed[], folder: string): string {
  if (listed.length === 0)
    return `no products in the library of ${folder}: load one with "sievewright product add FILE"\n`;
  const rows = listed.map(({ code, name, revision }) => [
    code,
    revision === null ? "not in force yet" : `rev ${revision}`,
    name,
  ]);
  return `${inColumns(rows).join("\n")}\n`;
}
