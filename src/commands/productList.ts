import { inColumns } from "../report/columns.ts";
import { dataFolder } from "../store/dataFolder.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { type Ending, EXIT } from "./ending.ts";
import type { Io } from "./io.ts";
import { readShelf, type Shelf } from "./shelf.ts";

/** What a list tells of one product; `revision` is the one in force today, null if none is. */
interface Listed {
  readonly code: string;
  readonly name: string;
  readonly revision: number | null;
  readonly revisions: readonly number[];
  /** Revisions whose day has not come. */
  readonly coming: readonly { readonly revision: number; readonly effective: string }[];
  readonly draft: { readonly revision: number; readonly author: string; readonly since: string } | null;
}

/** `sievewright product list`: the library, a line a product. */
export async function productList(options: { json?: boolean; data?: string }, io: Io): Promise<Ending> {
  const folder = dataFolder(options.data, io.env);
  const shelf = await readShelf(folder, io);
  const { problems } = shelf;
  const codes = [...new Set([...shelf.products.codes, ...shelf.drafts.map(({ code }) => code)])].sort();
  const listed = codes.map((code) => listedAs(code, shelf));
  const out = options.json ? `${printedJson(listed)}\n` : listText(listed, folder);
  return { code: EXIT.ok, out, remark: () => (problems.length > 0 ? problems.join("; ") : null) };
}

function listedAs(code: string, { products, drafts, day }: Shelf): Listed {
  const revisions = products.revisions(code);
  const inForce = products.inForce(code, day);
  const draft = drafts.find((one) => one.code === code) ?? null;
  const name = (inForce ?? revisions.at(-1) ?? draft)?.name ?? "";
  return {
    code,
    name,
    revision: inForce?.revision ?? null,
    revisions: revisions.map((one) => one.revision),
    coming: revisions.flatMap(({ revision, effective = "" }) => (effective > day ? [{ revision, effective }] : [])),
    draft: draft === null ? null : { revision: draft.revision, author: draft.author, since: draft.since },
  };
}

function stateText({ revision, coming, draft }: Listed): string {
  const words = [
    revision === null ? "not in force yet" : `rev ${revision}`,
    ...coming.map((one) => `rev ${one.revision} from ${one.effective}`),
    ...(draft === null ? [] : [`draft of rev ${draft.revision} by ${draft.author}`]),
  ];
  return words.join(", ");
}

function listText(listed: readonly Listed[], folder: string): string {
  if (listed.length === 0)
    return `no products in the library of ${folder}: load one with "sievewright product add FILE"\n`;
  const rows = listed.map((one) => [one.code, stateText(one), one.name]);
  return `${inColumns(rows).join("\n")}\n`;
}
